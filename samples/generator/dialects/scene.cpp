// SPDX-License-Identifier: MIT
#include "generator/dialects/scene.hpp"

#include <array>

#include "generator/camera.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

constexpr std::array fingers = {Joint::thumb_1, Joint::index_1, Joint::middle_1, Joint::ring_1,
                                Joint::little_1};

/// A hand that hangs open below the wrist; where exactly is of no matter here.
void add_hand(Points& points, Side side) {
  const Vector3d wrist = *points[{side, Joint::wrist}];
  for (std::size_t finger = 0; finger < fingers.size(); ++finger) {
    for (std::size_t joint = 0; joint < 4; ++joint) {
      const auto id = static_cast<Joint>(static_cast<std::size_t>(fingers[finger]) + joint);
      points[{side, id}] = wrist + Vector3d(0.02 * (double(finger) - 2), -0.06 - 0.02 * joint,
                                            0.01 * (1 + double(finger)));
    }
  }
}

Points whole_body(Points points) {
  const Vector3d pelvis = (*points[lead(Joint::hip)] + *points[trail(Joint::hip)]) / 2;
  points[centre(Joint::pelvis)] = pelvis;
  points[centre(Joint::mid_spine)] = (pelvis + *points[centre(Joint::neck)]) / 2;
  add_hand(points, Side::lead);
  add_hand(points, Side::trail);
  for (const Joint joint : {Joint::ball, Joint::grip_end, Joint::hands_mid, Joint::shaft_mid,
                            Joint::hosel, Joint::club_toe}) {
    points[centre(joint)].reset();
  }
  return points;
}

/// Five metres in front of the golfers, at hip height, level and square.
Camera level_camera() {
  Camera camera;
  camera.axes << 1, 0, 0, 0, -1, 0, 0, 0, -1;
  camera.position = {0.6, 1, 5};
  camera.focal_px = 900;
  camera.width_px = 1280;
  camera.height_px = 720;
  return camera;
}

ScenePerson person_at(const Camera& camera, const Points& points, const Vector3d& moved_m,
                      int track, std::size_t frame) {
  ScenePerson person{track, {}};
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& point = points.values()[i];
    if (!point) continue;
    const Vector3d at = *point + moved_m;
    const double confidence = 0.5 + 0.01 * double((7 * i + 3 * frame) % 45);
    person.points.values()[i] = {camera.project(at), camera.seen(at), confidence};
  }
  return person;
}

void hide(ScenePerson& person, std::initializer_list<LandmarkId> ids) {
  for (const LandmarkId id : ids) person.points[id]->confidence = 0;
}

}  // namespace

Scene made_up_scene() {
  const Camera camera = level_camera();
  Scene scene{camera.width_px, camera.height_px, 30, {}};
  Random random(33);
  const Points one =
      whole_body(draw_golfer(random, Age::adult, Setup::iron, Family::neutral).points);
  const Points other =
      whole_body(draw_golfer(random, Age::adult, Setup::iron, Family::neutral).points);
  for (const std::size_t number : {0, 1, 2, 3, 5, 6}) {
    SceneFrame frame{number, double(number) / scene.frame_rate_hz, {}};
    const Vector3d sway(0.01 * double(number), -0.004 * double(number), 0);
    ScenePerson first = person_at(camera, one, sway, 0, number);
    hide(first, {lead(Joint::ear), trail(Joint::wrist), lead(Joint::middle_2)});
    ScenePerson second = person_at(camera, other, Vector3d(1.2, 0, -0.5) - sway, 1, number);
    hide(second, {trail(Joint::eye), lead(Joint::elbow), trail(Joint::ring_4)});
    if (number == 1) hide(second, {centre(Joint::nose), lead(Joint::ankle)});
    if (number != 2 && number != 5) frame.people.push_back(first);
    if (number != 2) frame.people.push_back(second);
    scene.frames.push_back(frame);
  }
  return scene;
}

}  // namespace rangecheck::samples
