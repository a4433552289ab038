// SPDX-License-Identifier: MIT
#include "generator/dialects/point_orders.hpp"

#include <cctype>
#include <map>
#include <sstream>
#include <stdexcept>

namespace rangecheck::samples {
namespace {

// Names separated by blanks. "name=point" is an estimator's own name of one of our points, "name="
// one that we haven't, "face*68" that many of them, face-0 and so on. Sources: the estimators' own
// documentation.
const std::map<std::string_view, std::string_view> orders = {
    {"coco-17",
     "nose left_eye right_eye left_ear right_ear left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip left_knee right_knee left_ankle "
     "right_ankle"},
    {"coco-18",
     "nose neck right_shoulder right_elbow right_wrist left_shoulder left_elbow left_wrist "
     "right_hip right_knee right_ankle left_hip left_knee left_ankle right_eye left_eye right_ear "
     "left_ear"},
    {"mpi-15",
     "head=head_top neck right_shoulder right_elbow right_wrist left_shoulder left_elbow "
     "left_wrist right_hip right_knee right_ankle left_hip left_knee left_ankle chest="},
    {"body-25",
     "nose neck right_shoulder right_elbow right_wrist left_shoulder left_elbow left_wrist "
     "mid_hip=pelvis right_hip right_knee right_ankle left_hip left_knee left_ankle right_eye "
     "left_eye right_ear left_ear left_big_toe left_small_toe left_heel right_big_toe "
     "right_small_toe right_heel"},
    {"vitpose-25",
     "nose left_eye right_eye left_ear right_ear neck left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip hip=pelvis left_knee right_knee "
     "left_ankle right_ankle left_big_toe left_small_toe left_heel right_big_toe right_small_toe "
     "right_heel"},
    {"halpe-26",
     "nose left_eye right_eye left_ear right_ear left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip left_knee right_knee left_ankle "
     "right_ankle head=head_top neck hip=pelvis left_big_toe right_big_toe left_small_toe "
     "right_small_toe left_heel right_heel"},
    {"body-25b",
     "nose left_eye right_eye left_ear right_ear left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip left_knee right_knee left_ankle "
     "right_ankle neck head_top left_big_toe left_small_toe left_heel right_big_toe "
     "right_small_toe right_heel"},
    {"body-135",
     "nose left_eye right_eye left_ear right_ear left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip left_knee right_knee left_ankle "
     "right_ankle neck head_top left_big_toe left_small_toe left_heel right_big_toe "
     "right_small_toe right_heel left_thumb1=left_thumb_1 left_thumb2=left_thumb_2 "
     "left_thumb3=left_thumb_3 left_thumb4=left_thumb_4 left_forefinger1=left_index_1 "
     "left_forefinger2=left_index_2 left_forefinger3=left_index_3 "
     "left_forefinger4=left_index_4 left_middle_finger1=left_middle_1 "
     "left_middle_finger2=left_middle_2 left_middle_finger3=left_middle_3 "
     "left_middle_finger4=left_middle_4 left_ring_finger1=left_ring_1 "
     "left_ring_finger2=left_ring_2 left_ring_finger3=left_ring_3 "
     "left_ring_finger4=left_ring_4 left_pinky_finger1=left_little_1 "
     "left_pinky_finger2=left_little_2 left_pinky_finger3=left_little_3 "
     "left_pinky_finger4=left_little_4 right_thumb1=right_thumb_1 right_thumb2=right_thumb_2 "
     "right_thumb3=right_thumb_3 right_thumb4=right_thumb_4 right_forefinger1=right_index_1 "
     "right_forefinger2=right_index_2 right_forefinger3=right_index_3 "
     "right_forefinger4=right_index_4 right_middle_finger1=right_middle_1 "
     "right_middle_finger2=right_middle_2 right_middle_finger3=right_middle_3 "
     "right_middle_finger4=right_middle_4 right_ring_finger1=right_ring_1 "
     "right_ring_finger2=right_ring_2 right_ring_finger3=right_ring_3 "
     "right_ring_finger4=right_ring_4 right_pinky_finger1=right_little_1 "
     "right_pinky_finger2=right_little_2 right_pinky_finger3=right_little_3 "
     "right_pinky_finger4=right_little_4 face*70"},
    {"halpe-136",
     "nose left_eye right_eye left_ear right_ear left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip left_knee right_knee left_ankle "
     "right_ankle head=head_top neck hip=pelvis left_big_toe right_big_toe left_small_toe "
     "right_small_toe left_heel right_heel face*68 left_hand_root= left_thumb1=left_thumb_1 "
     "left_thumb2=left_thumb_2 left_thumb3=left_thumb_3 left_thumb4=left_thumb_4 "
     "left_forefinger1=left_index_1 left_forefinger2=left_index_2 "
     "left_forefinger3=left_index_3 left_forefinger4=left_index_4 "
     "left_middle_finger1=left_middle_1 left_middle_finger2=left_middle_2 "
     "left_middle_finger3=left_middle_3 left_middle_finger4=left_middle_4 "
     "left_ring_finger1=left_ring_1 left_ring_finger2=left_ring_2 "
     "left_ring_finger3=left_ring_3 left_ring_finger4=left_ring_4 "
     "left_pinky_finger1=left_little_1 left_pinky_finger2=left_little_2 "
     "left_pinky_finger3=left_little_3 left_pinky_finger4=left_little_4 right_hand_root= "
     "right_thumb1=right_thumb_1 right_thumb2=right_thumb_2 right_thumb3=right_thumb_3 "
     "right_thumb4=right_thumb_4 right_forefinger1=right_index_1 "
     "right_forefinger2=right_index_2 right_forefinger3=right_index_3 "
     "right_forefinger4=right_index_4 right_middle_finger1=right_middle_1 "
     "right_middle_finger2=right_middle_2 right_middle_finger3=right_middle_3 "
     "right_middle_finger4=right_middle_4 right_ring_finger1=right_ring_1 "
     "right_ring_finger2=right_ring_2 right_ring_finger3=right_ring_3 "
     "right_ring_finger4=right_ring_4 right_pinky_finger1=right_little_1 "
     "right_pinky_finger2=right_little_2 right_pinky_finger3=right_little_3 "
     "right_pinky_finger4=right_little_4"},
    {"wholebody-134",
     "nose neck right_shoulder right_elbow right_wrist left_shoulder left_elbow left_wrist "
     "right_hip right_knee right_ankle left_hip left_knee left_ankle right_eye left_eye "
     "right_ear left_ear left_big_toe left_small_toe left_heel right_big_toe right_small_toe "
     "right_heel face*68 left_hand_root= left_thumb1=left_thumb_1 left_thumb2=left_thumb_2 "
     "left_thumb3=left_thumb_3 left_thumb4=left_thumb_4 left_forefinger1=left_index_1 "
     "left_forefinger2=left_index_2 left_forefinger3=left_index_3 "
     "left_forefinger4=left_index_4 left_middle_finger1=left_middle_1 "
     "left_middle_finger2=left_middle_2 left_middle_finger3=left_middle_3 "
     "left_middle_finger4=left_middle_4 left_ring_finger1=left_ring_1 "
     "left_ring_finger2=left_ring_2 left_ring_finger3=left_ring_3 "
     "left_ring_finger4=left_ring_4 left_pinky_finger1=left_little_1 "
     "left_pinky_finger2=left_little_2 left_pinky_finger3=left_little_3 "
     "left_pinky_finger4=left_little_4 right_hand_root= right_thumb1=right_thumb_1 "
     "right_thumb2=right_thumb_2 right_thumb3=right_thumb_3 right_thumb4=right_thumb_4 "
     "right_forefinger1=right_index_1 right_forefinger2=right_index_2 "
     "right_forefinger3=right_index_3 right_forefinger4=right_index_4 "
     "right_middle_finger1=right_middle_1 right_middle_finger2=right_middle_2 "
     "right_middle_finger3=right_middle_3 right_middle_finger4=right_middle_4 "
     "right_ring_finger1=right_ring_1 right_ring_finger2=right_ring_2 "
     "right_ring_finger3=right_ring_3 right_ring_finger4=right_ring_4 "
     "right_pinky_finger1=right_little_1 right_pinky_finger2=right_little_2 "
     "right_pinky_finger3=right_little_3 right_pinky_finger4=right_little_4"},
    {"mpii-16",
     "right_ankle right_knee right_hip left_hip left_knee left_ankle pelvis thorax=neck "
     "upper_neck= head_top right_wrist right_elbow right_shoulder left_shoulder left_elbow "
     "left_wrist"},
    {"posetrack-17",
     "nose head_bottom= head_top left_ear right_ear left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip left_knee right_knee left_ankle "
     "right_ankle"},
    {"crowdpose-14",
     "left_shoulder right_shoulder left_elbow right_elbow left_wrist right_wrist left_hip "
     "right_hip left_knee right_knee left_ankle right_ankle top_head=head_top neck"},
    {"points-33",
     "nose left_eye_inner= left_eye left_eye_outer= right_eye_inner= right_eye right_eye_outer= "
     "left_ear right_ear mouth_left= mouth_right= left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_pinky=left_little_1 right_pinky=right_little_1 "
     "left_index=left_index_1 right_index=right_index_1 left_thumb=left_thumb_2 "
     "right_thumb=right_thumb_2 left_hip right_hip left_knee right_knee left_ankle right_ankle "
     "left_heel right_heel left_foot_index=left_big_toe right_foot_index=right_big_toe"},
    {"h36m-17",
     "root=pelvis right_hip right_knee right_foot=right_ankle left_hip left_knee "
     "left_foot=left_ankle spine=mid_spine thorax=neck neck_base= head=head_top left_shoulder "
     "left_elbow left_wrist right_shoulder right_elbow right_wrist"},
    {"panoptic-19",
     "neck nose mid_hip=pelvis left_shoulder left_elbow left_wrist left_hip left_knee left_ankle "
     "right_shoulder right_elbow right_wrist right_hip right_knee right_ankle left_eye left_ear "
     "right_eye right_ear"},
    {"kinect-20",
     "hip_center=pelvis spine=mid_spine shoulder_center=neck head= shoulder_left=left_shoulder "
     "elbow_left=left_elbow wrist_left=left_wrist hand_left= shoulder_right=right_shoulder "
     "elbow_right=right_elbow wrist_right=right_wrist hand_right= hip_left=left_hip "
     "knee_left=left_knee ankle_left=left_ankle foot_left=left_big_toe hip_right=right_hip "
     "knee_right=right_knee ankle_right=right_ankle foot_right=right_big_toe"},
    {"kinect-25",
     "spine_base=pelvis spine_mid=mid_spine neck= head= shoulder_left=left_shoulder "
     "elbow_left=left_elbow wrist_left=left_wrist hand_left= shoulder_right=right_shoulder "
     "elbow_right=right_elbow wrist_right=right_wrist hand_right= hip_left=left_hip "
     "knee_left=left_knee ankle_left=left_ankle foot_left=left_big_toe hip_right=right_hip "
     "knee_right=right_knee ankle_right=right_ankle foot_right=right_big_toe spine_shoulder=neck "
     "hand_tip_left= thumb_left= hand_tip_right= thumb_right="},
    {"kinect-32",
     "pelvis spine_navel= spine_chest= neck clavicle_left= shoulder_left=left_shoulder "
     "elbow_left=left_elbow wrist_left=left_wrist hand_left= handtip_left= thumb_left= "
     "clavicle_right= shoulder_right=right_shoulder elbow_right=right_elbow "
     "wrist_right=right_wrist hand_right= handtip_right= thumb_right= hip_left=left_hip "
     "knee_left=left_knee ankle_left=left_ankle foot_left=left_big_toe hip_right=right_hip "
     "knee_right=right_knee ankle_right=right_ankle foot_right=right_big_toe head= nose "
     "eye_left=left_eye ear_left=left_ear eye_right=right_eye ear_right=right_ear"},
    {"finger-tips",
     "left_thumb_tip=left_thumb_4 left_index_finger_tip=left_index_4 "
     "left_pinky_tip=left_little_4 right_thumb_tip=right_thumb_4 "
     "right_index_finger_tip=right_index_4 right_pinky_tip=right_little_4"},
    {"wholebody-133",
     "nose left_eye right_eye left_ear right_ear left_shoulder right_shoulder left_elbow "
     "right_elbow left_wrist right_wrist left_hip right_hip left_knee right_knee left_ankle "
     "right_ankle left_big_toe left_small_toe left_heel right_big_toe right_small_toe "
     "right_heel face*68 left_hand_root= left_thumb1=left_thumb_1 left_thumb2=left_thumb_2 "
     "left_thumb3=left_thumb_3 left_thumb4=left_thumb_4 left_forefinger1=left_index_1 "
     "left_forefinger2=left_index_2 left_forefinger3=left_index_3 "
     "left_forefinger4=left_index_4 left_middle_finger1=left_middle_1 "
     "left_middle_finger2=left_middle_2 left_middle_finger3=left_middle_3 "
     "left_middle_finger4=left_middle_4 left_ring_finger1=left_ring_1 "
     "left_ring_finger2=left_ring_2 left_ring_finger3=left_ring_3 "
     "left_ring_finger4=left_ring_4 left_pinky_finger1=left_little_1 "
     "left_pinky_finger2=left_little_2 left_pinky_finger3=left_little_3 "
     "left_pinky_finger4=left_little_4 right_hand_root= right_thumb1=right_thumb_1 "
     "right_thumb2=right_thumb_2 right_thumb3=right_thumb_3 right_thumb4=right_thumb_4 "
     "right_forefinger1=right_index_1 right_forefinger2=right_index_2 "
     "right_forefinger3=right_index_3 right_forefinger4=right_index_4 "
     "right_middle_finger1=right_middle_1 right_middle_finger2=right_middle_2 "
     "right_middle_finger3=right_middle_3 right_middle_finger4=right_middle_4 "
     "right_ring_finger1=right_ring_1 right_ring_finger2=right_ring_2 "
     "right_ring_finger3=right_ring_3 right_ring_finger4=right_ring_4 "
     "right_pinky_finger1=right_little_1 right_pinky_finger2=right_little_2 "
     "right_pinky_finger3=right_little_3 right_pinky_finger4=right_little_4"},
    {"framework-joints",
     "head_joint=nose left_eye_joint=left_eye right_eye_joint=right_eye "
     "left_ear_joint=left_ear right_ear_joint=right_ear neck_1_joint=neck root=pelvis "
     "left_shoulder_1_joint=left_shoulder left_forearm_joint=left_elbow "
     "left_hand_joint=left_wrist left_upLeg_joint=left_hip left_leg_joint=left_knee "
     "left_foot_joint=left_ankle right_shoulder_1_joint=right_shoulder "
     "right_forearm_joint=right_elbow right_hand_joint=right_wrist "
     "right_upLeg_joint=right_hip right_leg_joint=right_knee right_foot_joint=right_ankle"},
    {"framework-skeleton",
     "root=pelvis hips_joint=pelvis spine_1_joint= spine_7_joint= neck_1_joint=neck "
     "head_joint=nose "
     "left_shoulder_1_joint=left_shoulder left_forearm_joint=left_elbow "
     "left_hand_joint=left_wrist left_upLeg_joint=left_hip left_leg_joint=left_knee "
     "left_foot_joint=left_ankle right_shoulder_1_joint=right_shoulder "
     "right_forearm_joint=right_elbow right_hand_joint=right_wrist "
     "right_upLeg_joint=right_hip right_leg_joint=right_knee right_foot_joint=right_ankle "
     "left_handIndexStart_joint= right_handIndexStart_joint= left_toes_joint= "
     "right_toes_joint="},
    {"left-hand-21",
     "wrist= left_thumb_1 left_thumb_2 left_thumb_3 left_thumb_4 left_index_1 left_index_2 "
     "left_index_3 left_index_4 left_middle_1 left_middle_2 left_middle_3 left_middle_4 "
     "left_ring_1 left_ring_2 left_ring_3 left_ring_4 left_little_1 left_little_2 left_little_3 "
     "left_little_4"},
    {"right-hand-21",
     "wrist= right_thumb_1 right_thumb_2 right_thumb_3 right_thumb_4 right_index_1 right_index_2 "
     "right_index_3 right_index_4 right_middle_1 right_middle_2 right_middle_3 right_middle_4 "
     "right_ring_1 right_ring_2 right_ring_3 right_ring_4 right_little_1 right_little_2 "
     "right_little_3 right_little_4"},
};

OrderedPoint point_of(std::string_view word) {
  const auto equals = word.find('=');
  const std::string name(word.substr(0, equals));
  if (equals == std::string_view::npos) return {name, point_named(word)};
  const auto ours = word.substr(equals + 1);
  if (ours.empty()) return {name, std::nullopt};
  return {name, point_named(ours)};
}

}  // namespace

PointOrder order_of(std::string_view set) {
  const auto found = orders.find(set);
  if (found == orders.end()) throw std::runtime_error("no such order: " + std::string(set));
  PointOrder order;
  std::istringstream words{std::string(found->second)};
  for (std::string word; words >> word;) {
    const auto times = word.find('*');
    if (times == std::string::npos) {
      order.push_back(point_of(word));
      continue;
    }
    for (std::size_t i = 0; i < std::stoul(word.substr(times + 1)); ++i) {
      order.push_back({word.substr(0, times) + "-" + std::to_string(i), std::nullopt});
    }
  }
  return order;
}

LandmarkId point_named(std::string_view name) {
  Side side = Side::centre;
  std::string_view rest = name;
  if (name.starts_with("left_")) side = Side::lead;
  if (name.starts_with("right_")) side = Side::trail;
  if (side != Side::centre) rest.remove_prefix(rest.find('_') + 1);
  const auto joint = find_joint(rest);
  if (!joint || is_paired(*joint) != (side != Side::centre)) {
    throw std::runtime_error("no such point: " + std::string(name));
  }
  return {side, *joint};
}

std::string anatomical_name(LandmarkId id) {
  const std::string joint(key_of(id.joint));
  if (id.side == Side::centre) return joint;
  return (id.side == Side::lead ? "left_" : "right_") + joint;
}

std::string camel_case(std::string_view snake_case) {
  std::string out;
  bool capital = false;
  for (const char c : snake_case) {
    if (c != '_') out += capital ? static_cast<char>(std::toupper(c)) : c;
    capital = c == '_';
  }
  return out;
}

}  // namespace rangecheck::samples
