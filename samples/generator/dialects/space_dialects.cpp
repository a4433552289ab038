// SPDX-License-Identifier: MIT
// Forms that hold points in space, and no picture.
#include <fmt/format.h>

#include <cctype>
#include <cmath>
#include <numbers>

#include "generator/dialects/dialects.hpp"
#include "generator/written.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

/// What a room's axes are to the camera's: turned about the vertical by 40 degrees, the origin on
/// the floor a metre under the camera. x and y as the camera has them, y down.
Vector3d in_room(const Vector3d& at_m) {
  constexpr double turn = 40 * std::numbers::pi / 180, camera_height_m = 1;
  return {std::cos(turn) * at_m.x() + std::sin(turn) * at_m.z(), at_m.y() - camera_height_m,
          std::cos(turn) * at_m.z() - std::sin(turn) * at_m.x()};
}

/// The same in axes with z up: x stays.
Vector3d z_up(const Vector3d& y_down) { return {y_down.x(), y_down.z(), -y_down.y()}; }

Json triple(const Vector3d& at, double unit_m, int decimals) {
  Json numbers = Json::array();
  for (const double metres : at) numbers.push_back(rounded(metres / unit_m, decimals));
  return numbers;
}

std::string upper(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

// ------------------------------------------------------------------ many cameras in a studio

Json joints19(const ScenePerson& person) {
  Json numbers = Json::array();
  for (const auto& point : points_of(person, order_of("panoptic-19"))) {
    const Json at = point.seen() ? triple(in_room(point.at_m), 0.01, 4) : Json{0, 0, 0};
    for (const auto& number : at) numbers.push_back(number);
    numbers.push_back(point.seen() ? rounded(point.confidence, 6) : -1.0);
  }
  return numbers;
}

std::vector<NamedText> joints19_bodies(const Scene& scene) {
  std::vector<NamedText> files;
  for (const auto& frame : scene.frames) {
    Json bodies = Json::array();
    for (const auto& person : frame.people) {
      bodies.push_back({{"id", person.track}, {"joints19", joints19(person)}});
    }
    const Json document = {{"version", 0.7},
                           {"univTime", rounded(1000 * frame.time_s, 3)},
                           {"fpsType", fmt::format("hd_{:.0f}", scene.frame_rate_hz)},
                           {"bodies", bodies}};
    files.push_back({fmt::format("body3DScene_{:08}.json", frame.number), document.dump(1)});
  }
  return files;
}

// ------------------------------------------------------------------ depth cameras

std::vector<NamedText> depth_camera_bodies(const Scene& scene) {
  const PointOrder order = order_of("kinect-32");
  Json names = Json::array(), frames = Json::array();
  for (const auto& point : order) names.push_back(upper(point.name));
  for (const auto& frame : scene.frames) {
    Json bodies = Json::array();
    for (const auto& person : frame.people) {
      Json positions = Json::array(), turns = Json::array();
      for (const auto& point : points_of(person, order)) {
        positions.push_back(triple(point.at_m, 0.001, 3));
        turns.push_back({1, 0, 0, 0});
      }
      bodies.push_back({{"body_id", person.track},
                        {"joint_positions", positions},
                        {"joint_orientations", turns}});
    }
    frames.push_back({{"timestamp_usec", std::llround(1e6 * frame.time_s)},
                      {"frame_id", frame.number},
                      {"num_bodies", bodies.size()},
                      {"bodies", bodies}});
  }
  const Json document = {{"k4abt_sdk_version", "1.1.2"},
                         {"source_file", "recording.mkv"},
                         {"joint_names", names},
                         {"bone_list", {{names[1], names[0]}}},
                         {"frames", frames}};
  return {{"recording.json", document.dump(4)}};
}

/// The first person of each frame, points as this writes them.
template <class Write>
Json lists_of_points(const Scene& scene, const PointOrder& order, Write write) {
  Json frames = Json::array();
  for (const auto& frame : scene.frames) {
    Json points = Json::array();
    if (!frame.people.empty()) {
      for (const auto& point : points_of(frame.people.front(), order)) {
        points.push_back(write(point.at_m));
      }
    }
    frames.push_back(points);
  }
  return frames;
}

/// Texts, as some programs have them: "7.6E-05".
std::vector<NamedText> depth_camera_texts(const Scene& scene) {
  const auto text = [](double metres) { return fmt::format("{:.7G}", metres); };
  return {{"skeleton.json",
           lists_of_points(scene, order_of("kinect-20"), [&](const Vector3d& at) {
             return Json{{"x", text(-at.x())}, {"y", text(-at.y())}, {"z", text(at.z())}};
           }).dump()}};
}

std::vector<NamedText> depth_camera_numbers(const Scene& scene) {
  return {{"skeleton.json", lists_of_points(scene, order_of("kinect-25"), [](const Vector3d& at) {
                              return Json{{"x", rounded(-at.x(), 5)},
                                          {"y", rounded(-at.y(), 5)},
                                          {"z", rounded(at.z(), 5)}};
                            }).dump()}};
}

// ------------------------------------------------------------------ several ordinary cameras

/// A hand's points are named after the hand: right_hand_thumb_tip.
std::string in_hand(const OrderedPoint& point) {
  const auto end_of_side = point.name.find('_');
  return point.name.substr(0, end_of_side) + "_hand" + point.name.substr(end_of_side);
}

Json nothing() { return {{"x", nullptr}, {"y", nullptr}, {"z", nullptr}}; }

/// Everything has its key in every frame; what was not seen is null.
Json tracked_points(const SceneFrame& frame) {
  const auto place = [&](const OrderedPoint& point) {
    if (frame.people.empty()) return nothing();
    const ScenePoint at = point_of(frame.people.front(), point);
    if (!at.seen()) return nothing();
    const Json numbers = triple(z_up(in_room(at.at_m)), 0.001, 3);
    return Json{{"x", numbers[0]}, {"y", numbers[1]}, {"z", numbers[2]}};
  };
  Json points = Json::object();
  for (const auto& point : order_of("points-33")) points[point.name] = place(point);
  for (const auto& point : order_of("finger-tips")) points[in_hand(point)] = place(point);
  points["com_full_body"] = nothing();
  return points;
}

std::vector<NamedText> points_by_frame(const Scene& scene) {
  Json frames = Json::object();
  for (const auto& frame : scene.frames) {
    frames[std::to_string(frame.number)] = {
        {"timestamps", {{"mean", rounded(frame.time_s, 6)}, {"by_camera", Json::object()}}},
        {"tracked_points", tracked_points(frame)}};
  }
  const Json document = {{"info", {{"segment_lengths", Json::object()}}},
                         {"data_by_frame", frames}};
  return {{"recording_by_frame.json", document.dump(4)}};
}

// ------------------------------------------------------------------ 17 points in space

/// As a lifter gives them: from the pelvis, camera axes.
std::vector<NamedText> lifted_points(const Scene& scene) {
  const PointOrder order = order_of("h36m-17");
  Json frames = Json::array();
  for (const auto& frame : scene.frames) {
    Json points = Json::array();
    if (!frame.people.empty()) {
      const auto body = points_of(frame.people.front(), order);
      for (const auto& point : body) points.push_back(triple(point.at_m - body[0].at_m, 1, 6));
    }
    frames.push_back(points);
  }
  return {{"lifted.json", frames.dump()}};
}

/// A measured recording, by action and take: millimetres, z up.
std::vector<NamedText> measured_points(const Scene& scene) {
  Json frames = Json::object();
  for (const auto& frame : scene.frames) {
    Json points = Json::array();
    if (!frame.people.empty()) {
      for (const auto& point : points_of(frame.people.front(), order_of("h36m-17"))) {
        points.push_back(triple(z_up(in_room(point.at_m)), 0.001, 3));
      }
    }
    frames[std::to_string(frame.number)] = points;
  }
  const Json document = {{"2", {{"1", frames}}}};
  return {{"joint_3d.json", document.dump()}};
}

Holds depth_camera_list() {
  return {.people = false,
          .missing = false,
          .picture = false,
          .confidence = false,
          .space = SpaceHeld::metres};
}

}  // namespace

std::vector<Dialect> space_dialects() {
  std::vector<Dialect> all;
  all.push_back({.form = "joints19-bodies",
                 .title = "19 points in space, one file a frame",
                 .points = order_of("panoptic-19"),
                 .holds = {.picture = false,
                           .tracks = true,
                           .numbers = true,
                           .times = true,
                           .frame_rate = true,
                           .space = SpaceHeld::any_heading},
                 .write = joints19_bodies});
  all.push_back({.form = "depth-camera-bodies",
                 .title = "32 points of a depth camera",
                 .points = order_of("kinect-32"),
                 .holds = {.missing = false,
                           .picture = false,
                           .confidence = false,
                           .tracks = true,
                           .numbers = true,
                           .times = true,
                           .space = SpaceHeld::metres},
                 .write = depth_camera_bodies});
  all.push_back({.form = "depth-camera-points",
                 .title = "20 or 25 points of a depth camera",
                 .points = order_of("kinect-20"),
                 .holds = depth_camera_list(),
                 .write = depth_camera_texts});
  all.push_back({.form = "depth-camera-points",
                 .title = "20 or 25 points of a depth camera",
                 .points = order_of("kinect-25"),
                 .holds = depth_camera_list(),
                 .write = depth_camera_numbers});
  PointOrder with_finger_tips = order_of("points-33");
  for (const auto& point : order_of("finger-tips")) with_finger_tips.push_back(point);
  all.push_back({.form = "points-by-frame",
                 .title = "named points in space, by frame",
                 .points = with_finger_tips,
                 .holds = {.people = false,
                           .picture = false,
                           .confidence = false,
                           .numbers = true,
                           .times = true,
                           .space = SpaceHeld::any_heading},
                 .write = points_by_frame});
  all.push_back({.form = "points-17-in-space",
                 .title = "17 points in space",
                 .points = order_of("h36m-17"),
                 .holds = depth_camera_list(),
                 .write = lifted_points});
  all.push_back({.form = "points-17-in-space",
                 .title = "17 points in space",
                 .points = order_of("h36m-17"),
                 .holds = {.people = false,
                           .missing = false,
                           .picture = false,
                           .confidence = false,
                           .numbers = true,
                           .space = SpaceHeld::any_heading},
                 .write = measured_points});
  return all;
}

}  // namespace rangecheck::samples
