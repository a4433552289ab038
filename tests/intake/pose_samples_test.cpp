// SPDX-License-Identifier: MIT
// Real files of real estimators, where RANGECHECK_POSE_SAMPLES names a folder of them: each is read
// right, to the digit that stands in it, or refused with the right sentence.
#include <cmath>
#include <cstdlib>
#include <optional>
#include <set>

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

namespace fs = std::filesystem;

/// A point to find, in the picture or in space; NaN is not looked at.
struct Expected {
  std::size_t frame, person;
  LandmarkId id;
  double x, y;
  std::optional<double> z_m = std::nullopt;
};

struct ReadRow {
  const char* path;  ///< a file, or a folder of a file a frame
  std::optional<ImageSize> image;
  const char* dialect;
  std::size_t frames, most_people;
  std::vector<Expected> points;
};

struct RefusedRow {
  const char* path;
  const char* sentence;
};

constexpr LandmarkId nose = centre(Joint::nose), head_top = centre(Joint::head_top),
                     pelvis = centre(Joint::pelvis);
LandmarkId left(Joint joint) { return lead(joint); }
LandmarkId right(Joint joint) { return trail(joint); }

std::vector<ReadRow> read_rows() {
  const auto none = std::nullopt;
  return {
      // Said to be the 25 points with a mid-hip, but the body is that of the others.
      {"openpose_body25/pose2sim_cam1_balancing",
       none,
       "25 points a person, one list of people a frame, in pixels",
       40,
       3,
       {{20, 0, left(Joint::knee), 457.887, 983.575},
        {20, 0, head_top, 694.42, 415.904},
        {20, 0, right(Joint::heel), 310.679, 1025.71}}},
      {"openpose_body25/pose2sim_static_projected",
       none,
       "25 points a person, one list of people a frame, in pixels",
       6,
       1,
       {{3, 0, right(Joint::ankle), 1095.29455054148, 1358.8294242604409}}},
      {"alphapose_halpe26/motionbert_demo.alphapose-results.json",
       none,
       "26 points a person, all pictures in one array, in pixels",
       809,
       2,
       {{12, 0, left(Joint::heel), 99.51571655273438, 602.345947265625},
        {12, 0, pelvis, 126.25991821289062, 318.85748291015625}}},
      {"alphapose_halpe26/motionbert_demo.alphapose-results.trimmed.json",
       none,
       "26 points a person, all pictures in one array, in pixels",
       40,
       1,
       {{12, 0, left(Joint::heel), 99.51571655273438, 602.345947265625}}},
      {"mmpose1_demo_halpe26/3-drops.json",
       none,
       "26 points a person, instances with points and scores, in pixels",
       131,
       1,
       {{5, 0, left(Joint::big_toe), 1084.1785888671875, 765.4800415039062}}},
      {"mmpose1_demo_halpe26/3-drops.trimmed.json",
       none,
       "26 points a person, instances with points and scores, in pixels",
       12,
       1,
       {{5, 0, left(Joint::big_toe), 1084.1785888671875, 765.4800415039062}}},
      {"coco_annotations/test_coco.json",
       none,
       "17 points a person, marks on pictures, in pixels",
       4,
       5,
       {{1, 0, nose, 99, 144}, {1, 0, right(Joint::ankle), 158, 296}}},
      {"coco_annotations/test_coco_wholebody.json",
       none,
       "23 points a person, marks on pictures, in pixels",
       4,
       5,
       {{1, 0, left(Joint::ankle), 177, 256},
        {1, 0, left(Joint::heel), 183.38626, 275.93367},
        {1, 0, left(Joint::index_4), 106.6628, 198.38005}}},
      {"coco_annotations/test_halpe.json",
       none,
       "136 points a person, marks on pictures, in pixels",
       4,
       5,
       {{1, 0, head_top, 106, 120}, {1, 0, right(Joint::ankle), 158, 296}}},
      {"coco_annotations/test_crowdpose.json",
       none,
       "14 points a person, marks on pictures, in pixels",
       2,
       2,
       {{1, 0, left(Joint::shoulder), 388, 205},
        {1, 0, right(Joint::knee), 351, 357},
        {1, 0, head_top, 351, 163}}},
      // Its names exchange the legs: "left_hip" is the second point, whose left is the arms' right.
      {"coco_annotations/h36m_coco.json",
       none,
       "17 points a person, marks on pictures, in pixels",
       4,
       1,
       {{0, 0, right(Joint::hip), 500.99609375, 448.0298767089844},
        {0, 0, left(Joint::hip), 445.90008544921875, 441.81585693359375}}},
      {"posetrack18/009473_mpii_test.json",
       none,
       "17 points a person, marks on pictures, in pixels",
       1,
       2,
       {{0, 1, head_top, 936.0065308, 219.1595001}, {0, 1, left(Joint::ankle), 849, 828}}},
      {"posetrack18/012834_mpii_test.json",
       none,
       "17 points a person, marks on pictures, in pixels",
       1,
       11,
       {{0, 1, head_top, 593.1513062, 450.3486023}, {0, 1, left(Joint::ankle), 616.5, 700.5}}},
      {"mpii_list/test_mpii.json",
       none,
       "16 points a person, joints by picture, in pixels",
       5,
       1,
       {{1, 0, left(Joint::ankle), 394, 409}, {1, 0, head_top, 347.0055, 105.8949}}},
      {"controlnet_openpose/pose_hand_fixed.json",
       none,
       "18 points a person, one list of people a frame, in pixels",
       1,
       1,
       {{0, 0, right(Joint::wrist), 147.0056595578984, 238.99933417965596},
        {0, 0, left(Joint::index_4), 562.9925550424647, 112.34116137640014}}},
      {"posenet/posey_poses.json",
       none,
       "17 points a person, lists of point objects, in pixels",
       5,
       1,
       {{2, 0, left(Joint::ankle), 1.859791959269728, 569.4033093398876}}},
      {"tfjs_movenet_testdata/pose_1.json",
       none,
       "17 points a person, points by name, in pixels",
       120,
       1,
       {{7, 0, right(Joint::wrist), 219.2130889892578, 317.8568916320801}}},
      {"tfjs_blazepose_testdata/pose_squats.full.json",
       none,
       "33 points, in pixels",
       65,
       1,
       {{30, 0, right(Joint::big_toe), 294.36570167541504, 1011.0475158691406},
        {30, 0, left(Joint::knee), 406.10618591308594, 792.1940612792969}}},
      {"tfjs_blazepose_testdata/pose_squats_3d.full.json",
       none,
       "33 points, in space only",
       65,
       1,
       {{30, 0, left(Joint::knee), 0.23341104388237, 0.20870234072208405, -0.164789080619812}}},
      // Turned about gravity so that the first golfer looks at the camera: heights alone stay.
      {"panoptic_body3d",
       none,
       "19 points a person, bodies with points in space, in space only",
       4,
       3,
       {{2, 0, nose, NAN, -1.26086, NAN}}},
      {"mediapipe_33_single/pose_landmarks.json",
       ImageSize{1000, 500},
       "33 points, in fractions of the picture",
       1,
       1,
       {{0, 0, left(Joint::ankle), 254.3727159500122, 373.01534414291382}}},
  };
}

std::vector<RefusedRow> refused_rows() {
  return {
      {"coco_annotations/sleapio_mixed_animals.json",
       "has a point \"left_front_paw\", which no human body has"},
      {"coco_annotations/sleapio_visibility_ternary.json",
       "has a point \"left_front_paw\", which no human body has"},
      {"controlnet_openpose/output_pose.json",
       "has 21 points a person, which are those of a hand, without a body"},
      {"tfjs_hand21_testdata/asl_hand.full.trimmed.json",
       "has 21 points a person, which are those of a hand, without a body"},
      // Of 21 keys, not 33: a hand too.
      {"mediapipe_33_index_scaled/pose.json",
       "has 21 points a person, which are those of a hand, without a body"},
      {"posenet/mock-pose-data.json",
       "names its points \"nose\", \"leftEye\", \"rightEye\": 3 of all its names are joints of a "
       "human body, too few to follow a golfer"},
  };
}

std::optional<fs::path> samples() {
  const char* folder = std::getenv("RANGECHECK_POSE_SAMPLES");
  if (folder == nullptr) return std::nullopt;
  return fs::path(folder);
}

Result<Film> read_sample(const fs::path& path, std::optional<ImageSize> image) {
  const auto texts = read_landmark_files(path, "sample");
  if (!texts) return texts.error();
  return read_landmarks(*texts, image, Handedness::right);
}

void check_point(const Film& film, const Expected& expected) {
  CAPTURE(key_of(expected.id));
  REQUIRE(expected.frame < film.frames.size());
  const auto& people = film.frames[expected.frame].people;
  REQUIRE(expected.person < people.size());
  const Person& person = people[expected.person];
  if (expected.z_m) {
    REQUIRE(person.space.has(expected.id));
    const SpatialSighting& found = *person.space[expected.id];
    CHECK_CLOSE(found.y_m, expected.y, 1e-9);
    if (!std::isnan(expected.x)) CHECK_CLOSE(found.x_m, expected.x, 1e-9);
    if (!std::isnan(*expected.z_m)) CHECK_CLOSE(found.z_m, *expected.z_m, 1e-9);
    return;
  }
  REQUIRE(person.image.has(expected.id));
  CHECK_CLOSE(person.image[expected.id]->at.x_px, expected.x, 1e-9);
  CHECK_CLOSE(person.image[expected.id]->at.y_px, expected.y, 1e-9);
}

std::size_t most_people(const Film& film) {
  std::size_t most = 0;
  for (const auto& frame : film.frames) most = std::max(most, frame.people.size());
  return most;
}

}  // namespace

TEST_CASE("real files: those with a body are read") {
  const auto folder = samples();
  if (!folder) {
    MESSAGE("skipped: RANGECHECK_POSE_SAMPLES is not set");
    return;
  }
  for (const ReadRow& row : read_rows()) {
    CAPTURE(row.path);
    const auto film = read_sample(*folder / row.path, row.image);
    if (!film) FAIL_CHECK(to_string(film.error()));
    if (!film) continue;
    CHECK(film->dialect == row.dialect);
    CHECK(film->frames.size() == row.frames);
    CHECK(most_people(*film) == row.most_people);
    for (const Expected& expected : row.points) check_point(*film, expected);
  }
}

TEST_CASE("real files: those without are refused for what they are") {
  const auto folder = samples();
  if (!folder) {
    MESSAGE("skipped: RANGECHECK_POSE_SAMPLES is not set");
    return;
  }
  for (const RefusedRow& row : refused_rows()) {
    CAPTURE(row.path);
    const auto film = read_sample(*folder / row.path, std::nullopt);
    CHECK_FALSE(film);
    if (!film) CHECK(film.error().what == row.sentence);
  }
}

TEST_CASE("real files: none is without a row") {
  const auto folder = samples();
  if (!folder) {
    MESSAGE("skipped: RANGECHECK_POSE_SAMPLES is not set");
    return;
  }
  std::set<fs::path> covered;
  for (const ReadRow& row : read_rows()) covered.insert(row.path);
  for (const RefusedRow& row : refused_rows()) covered.insert(row.path);
  for (const auto& entry : fs::recursive_directory_iterator(*folder)) {
    if (entry.path().extension() != ".json") continue;
    const fs::path path = entry.path().lexically_relative(*folder);
    CAPTURE(path.string());
    CHECK((covered.contains(path) || covered.contains(path.parent_path())));
  }
}
