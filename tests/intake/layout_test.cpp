// SPDX-License-Identifier: MIT
#include "intake/layout.hpp"

#include <map>

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

const std::string head = "layout: my-6\ntitle: six points\nsource: my own estimator\npoints:\n";
const std::string six =
    "  [left_shoulder, right_shoulder, left_hip, right_hip, left_knee, right_knee]\n";

std::string refusal(const std::string& text) {
  const auto layout = read_layout(text, "layouts/my.yaml");
  REQUIRE_FALSE(layout);
  CHECK(layout.error().fault == Fault::bad_profile);
  return to_string(layout.error());
}

}  // namespace

TEST_CASE("layouts: those that ship, by their number of points") {
  // Counts from the estimators' own documentation, as the sources in the files name it.
  const std::map<std::string, std::size_t> expected = {
      {"aic-14", 14},       {"body-135", 135},     {"body-19", 19},
      {"body-25", 25},      {"body-25b", 25},      {"coco-17", 17},
      {"coco-25", 25},      {"crowdpose-14", 14},  {"coco-wholebody-133", 133},
      {"h36m-17", 17},      {"halpe-136", 136},    {"halpe-26", 26},
      {"jhmdb-15", 15},     {"kinect-20", 20},     {"kinect-25", 25},
      {"kinect-32", 32},    {"mpi-15", 15},        {"mpii-16", 16},
      {"openpose-18", 18},  {"panoptic-19", 19},   {"points-33", 33},
      {"posetrack-17", 17}, {"wholebody-134", 134}};
  std::map<std::string, std::size_t> found;
  for (const Layout& layout : shipped_layouts().all()) {
    found[layout.name] = layout.size();
    CHECK(layout.origin == "built in");
    CHECK_FALSE(layout.title.empty());
    CHECK_FALSE(layout.source.empty());
  }
  CHECK(found == expected);
  CHECK(shipped_layouts().find("points-33")->estimator == Estimator::points_33);
  CHECK(shipped_layouts().of_size(25).size() == 4);
  CHECK(shipped_layouts().find("halpe") == nullptr);
}

TEST_CASE("layouts: hands run from the wrist to the little finger") {
  const Layout& whole = *shipped_layouts().find("halpe-136");
  CHECK_FALSE(whole.points[94]);  // the body has the wrist
  CHECK(whole.points[95] == lead(Joint::thumb_1));
  CHECK(whole.points[114] == lead(Joint::little_4));
  CHECK(whole.points[116] == trail(Joint::thumb_1));
  const auto without_wrists =
      read_layout(head +
                      "  [left_shoulder, right_shoulder, left_hip, right_hip, unused x 42]\n"
                      "hands: { left: 4, right: 25 }\n",
                  "my.yaml");
  REQUIRE(without_wrists);
  CHECK(without_wrists->points[4] == lead(Joint::wrist));
  CHECK(without_wrists->points[25] == trail(Joint::wrist));
  CHECK(without_wrists->points[28] == trail(Joint::thumb_3));
}

TEST_CASE("layouts: what is wrong with one is said with its line") {
  const std::string at = "layouts/my.yaml:";
  CHECK(read_layout(head + six, "layouts/my.yaml"));
  CHECK(refusal(head + "  [left_sholder, nose]\n") ==
        at + "5: points[0]: there is no point \"left_sholder\" (did you mean left_shoulder?)");
  CHECK(refusal(head + "  [xyzzyx, nose]\n") ==
        at + "5: points[0]: there is no point \"xyzzyx\" (write unused for a point without use)");
  CHECK(refusal(head + "  [nose, unused x 3, nose]\n") == at + "5: points[2]: nose stands here "
                                                               "twice");
  CHECK(refusal(head + "  [nose, unused x 0]\n").find("there is no point \"unused x 0\"") !=
        std::string::npos);
  CHECK(refusal(head + "  [unused x 2000, unused x 2]\n").find("makes more points than can be") !=
        std::string::npos);
  CHECK(refusal(head + "  [left_hip, right_hip, left_knee, nose, neck, pelvis]\n") ==
        at + "4: points: left_knee stands here without right_knee");
  CHECK(refusal(head + "  [left_hip, right_hip]\n") ==
        at + "4: points: names 2 joints, too few for a body");
  CHECK(refusal(head + six + "colour: red\n").find("colour") != std::string::npos);
  CHECK(refusal(head + six + "least-score: 1\n") ==
        at + "6: least-score: should be from 0 to less than 1");
  CHECK(refusal(head + six + "hands: { left: 1 }\n").find("21 points from here don't fit") !=
        std::string::npos);
  CHECK(refusal(head + "  [left_hip, right_hip, left_knee, right_knee, nose, neck, unused x 41]\n"
                       "hands: { left: 5, right: 26 }\n")
            .find("the hand covers a point that the list names (write unused x 21 in its place)") !=
        std::string::npos);
  CHECK(refusal("layout: My 6\ntitle: t\nsource: s\npoints:\n" + six) ==
        at + "1: layout: should be lower-case words joined by hyphens");
  CHECK(refusal("layout: my-6\ntitle: t\nsource: s\npoints: 6\n") ==
        at + "4: points: should be a list of points");
}

TEST_CASE("layouts: a folder adds to those that ship, and replaces") {
  const Scratch folder;
  folder.write("my.yaml", head + six);
  folder.write("coco.yaml", "layout: coco-17\ntitle: mine\nsource: me\npoints:\n" + six);
  folder.write("names.yaml", "not: a layout");
  const auto set = load_layouts(folder.path);
  REQUIRE(set);
  CHECK(set->all().size() == shipped_layouts().all().size() + 1);
  CHECK(set->find("my-6")->origin == "layouts/my.yaml");
  CHECK(set->find("coco-17")->title == "mine");
  CHECK(load_layouts(folder.path / "nowhere")->all().size() == shipped_layouts().all().size());
  folder.write("bad.yaml", "layout: 3");
  const auto bad = load_layouts(folder.path);
  REQUIRE_FALSE(bad);
  CHECK(bad.error().where.file == "layouts/bad.yaml");
}

TEST_CASE("layouts: one of the coach's own reads a film of his estimator") {
  LayoutSet set = shipped_layouts();
  set.add(*read_layout(head + six, "my.yaml"));
  const std::string film = R"([{"image_id": 0, "keypoints": [)" + triples(6, 100) + "]}]";
  const auto read_with = [&](const std::string& layout) {
    ReadOptions options;
    options.layouts = &set;
    options.layout = layout;
    return read_landmarks({{"film.json", film}}, options);
  };
  const auto own = read_with("");
  REQUIRE(own);
  CHECK(x_of(person_in(*own), trail(Joint::knee)) == 105);
  CHECK(read_with("my-6"));
  CHECK(to_string(read_with("my-7").error()) ==
        "film.json: there is no layout \"my-7\" (did you mean my-6?)");
  CHECK(to_string(read_with("coco-17").error()) ==
        "film.json: has 6 points a person, and the layout coco-17 that the submission names has 17 "
        "(correct layout in submission.yaml, or leave it out)");
}

TEST_CASE("names: however they are spelt") {
  for (const char* name :
       {"left_shoulder", "leftShoulder", "LShoulder", "LEFT_SHOULDER", "SHOULDER_LEFT",
        "left_shoulder_1_joint", "L_Shoulder", "left shoulder", "left-shoulder", "shoulder.L"}) {
    CAPTURE(name);
    CHECK(joint_named(name) == lead(Joint::shoulder));
  }
  struct Case {
    const char* name;
    LandmarkId id;
  };
  const Case cases[] = {{"left_forearm_joint", lead(Joint::elbow)},
                        {"left_hand_joint", lead(Joint::wrist)},
                        {"left_upLeg_joint", lead(Joint::hip)},
                        {"right_leg_joint", trail(Joint::knee)},
                        {"right_foot_joint", trail(Joint::ankle)},
                        {"head_joint", centre(Joint::nose)},
                        {"neck_1_joint", centre(Joint::neck)},
                        {"root", centre(Joint::pelvis)},
                        {"root (pelvis)", centre(Joint::pelvis)},
                        {"thorax", centre(Joint::neck)},
                        {"right_foot", trail(Joint::ankle)},
                        {"LBigToe", lead(Joint::big_toe)},
                        {"left_bigtoe", lead(Joint::big_toe)},
                        {"RSmallToe", trail(Joint::small_toe)},
                        {"left_foot_index", lead(Joint::big_toe)},
                        {"LEFT_PINKY", lead(Joint::little_1)},
                        {"right_thumb", trail(Joint::thumb_2)},
                        {"left_thumb1", lead(Joint::thumb_1)},
                        {"left_forefinger4", lead(Joint::index_4)},
                        {"right_pinky_finger2", trail(Joint::little_2)},
                        {"MidHip", centre(Joint::pelvis)},
                        {"hip", centre(Joint::pelvis)},
                        {"top_head", centre(Joint::head_top)},
                        {"Nose", centre(Joint::nose)},
                        {"left_INDEX_FINGER_TIP", lead(Joint::index_4)},
                        {"club_toe", centre(Joint::club_toe)}};
  for (const Case& each : cases) {
    CAPTURE(each.name);
    CHECK(joint_named(each.name) == each.id);
  }
  for (const char* name : {"", "left", "shoulder", "left_nose", "left_eye_inner", "tail_base", "l",
                           "face-3", "Wrist", "left_left_knee", "\xff\xfe"}) {
    CAPTURE(name);
    CHECK_FALSE(joint_named(name));
  }
}
