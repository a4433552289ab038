// SPDX-License-Identifier: MIT
#include "generator/dialects/point_orders.hpp"

#include <cctype>
#include <map>
#include <sstream>
#include <stdexcept>

namespace rangecheck::samples {
namespace {

// Names separated by blanks. "name=point" is an estimator's own name of one of our points, "name="
// one that we haven't, "*68" that many without a name. Sources: the estimators' own documentation.
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
     "left_wrist right_hip right_knee right_ankle left_hip left_knee left_ankle chest=mid_spine"},
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
    if (word.front() != '*') {
      order.push_back(point_of(word));
    } else {
      order.resize(order.size() + std::stoul(word.substr(1)));
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
