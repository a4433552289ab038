// SPDX-License-Identifier: MIT
// People as objects: lists of point objects, and points by name.
#include "generator/dialects/writing.hpp"

namespace rangecheck::samples {
namespace {

/// {"x", "y", "score", "name"}; a point that was not seen is left out, as programs do that drop
/// points of low score.
Json named_keypoints(const ScenePerson& person, const PointOrder& order, const char* score) {
  Json keypoints = Json::array();
  for (const auto& ordered : order) {
    const ScenePoint point = point_of(person, ordered);
    if (!point.seen()) continue;
    keypoints.push_back({{"x", px(point.at_px.x())},
                         {"y", px(point.at_px.y())},
                         {score, score_of(point)},
                         {"name", ordered.name}});
  }
  return keypoints;
}

std::vector<NamedText> browser_arrays(const Scene& scene) {
  const auto order = order_of("coco-17");
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    return people_of(frame, [&](const ScenePerson& person) -> Json {
      return {{"score", 0.8}, {"keypoints", named_keypoints(person, order, "score")}};
    });
  }));
}

/// 33 points with points in space, wrapped by the program that recorded them. Points that were not
/// seen are guessed.
Json browser_33(const ScenePerson& person, const PointOrder& order) {
  Json image = Json::array(), space = Json::array();
  for (const auto& ordered : order) {
    const ScenePoint point = point_of(person, ordered);
    const auto at = from_hips(person, point);
    image.push_back({{"y", px(point.at_px.y())},
                     {"x", px(point.at_px.x())},
                     {"z", rounded(at.z(), 3)},
                     {"score", score_of(point)},
                     {"name", ordered.name}});
    space.push_back({{"x", metres(at.x())},
                     {"y", metres(at.y())},
                     {"z", metres(at.z())},
                     {"score", score_of(point)},
                     {"name", ordered.name}});
  }
  return {{"score", 0.9}, {"id", person.track}, {"keypoints", image}, {"keypoints3D", space}};
}

std::vector<NamedText> browser_timed(const Scene& scene) {
  const auto order = order_of("points-33");
  return one_line_each(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    return {{"timestamp", rounded(1000 * frame.time_s, 3)},
            {"poses", people_of(frame, [&](const ScenePerson& person) {
               return browser_33(person, order);
             })}};
  }));
}

/// Without names; a point that was not seen is null.
std::vector<NamedText> browser_unnamed(const Scene& scene) {
  const auto order = order_of("coco-17");
  Json frames = frames_of(scene, [&](const SceneFrame& frame) -> Json {
    return {{"frame", frame.number},
            {"poses", people_of(frame, [&](const ScenePerson& person) {
               Json points = Json::array();
               for (const auto& point : points_of(person, order)) {
                 points.push_back(!point.seen() ? Json()
                                                : Json{{"x", px(point.at_px.x())},
                                                       {"y", px(point.at_px.y())},
                                                       {"confidence", score_of(point)}});
               }
               return Json{{"keypoints", points}};
             })}};
  });
  return one_file({{"width", scene.width_px},
                   {"height", scene.height_px},
                   {"fps", scene.frame_rate_hz},
                   {"frames", frames}});
}

/// {score, keypoints: [{score, part, position: {x, y}}]}.
Json part_positions(const ScenePerson& person, const PointOrder& order) {
  Json keypoints = Json::array();
  for (const auto& ordered : order) {
    const ScenePoint point = point_of(person, ordered);
    if (!point.seen()) continue;
    keypoints.push_back({{"score", score_of(point)},
                         {"part", camel_case(ordered.name)},
                         {"position", {{"x", px(point.at_px.x())}, {"y", px(point.at_px.y())}}}});
  }
  return {{"score", 0.9}, {"keypoints", keypoints}};
}

std::vector<NamedText> parts_a_file(const Scene& scene) {
  const auto order = order_of("coco-17");
  return file_a_frame(scene, [&](const SceneFrame& frame) {
    return frame.people.empty() ? Json() : part_positions(frame.people.front(), order);
  });
}

std::vector<NamedText> parts_by_picture(const Scene& scene) {
  const auto order = order_of("coco-17");
  Json pictures = Json::object();
  for (const auto& frame : scene.frames) {
    pictures[std::to_string(frame.number) + ".jpg"] =
        people_of(frame, [&](const ScenePerson& person) { return part_positions(person, order); });
  }
  return one_file(pictures);
}

std::vector<NamedText> pose_and_skeleton(const Scene& scene) {
  const auto order = order_of("coco-17");
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    return people_of(frame, [&](const ScenePerson& person) {
      Json pose = part_positions(person, order);
      for (const auto& ordered : order) {
        const ScenePoint point = point_of(person, ordered);
        pose[camel_case(ordered.name)] = {{"x", px(point.at_px.x())},
                                          {"y", px(point.at_px.y())},
                                          {"confidence", score_of(point)}};
      }
      return Json{{"pose", pose}, {"skeleton", Json::array()}};
    });
  }));
}

/// Points once in a list and once each under its name.
std::vector<NamedText> keypoints_and_names(const Scene& scene) {
  const auto order = order_of("coco-17");
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    return people_of(frame, [&](const ScenePerson& person) {
      const Json keypoints = named_keypoints(person, order, "confidence");
      Json one = {{"keypoints", keypoints}, {"confidence", 0.9}, {"id", person.track}};
      for (const auto& keypoint : keypoints) {
        one[keypoint["name"].get<std::string>()] = keypoint;
      }
      return one;
    });
  }));
}

/// Each place in pixels and once more in fractions.
Json body_keypoints(const Scene& scene, const ScenePerson& person, const PointOrder& order) {
  Json keypoints = Json::array();
  for (const auto& ordered : order) {
    const ScenePoint point = point_of(person, ordered);
    if (!point.seen()) continue;
    const double x = px(point.at_px.x()), y = px(point.at_px.y());
    keypoints.push_back({{"part", camel_case(ordered.name)},
                         {"position", {x, y, 0.01}},
                         {"positionRaw", {x / scene.width_px, y / scene.height_px, 0.01}},
                         {"score", score_of(point)},
                         {"distance", {0.1, 0.2, 0.3}}});
  }
  return keypoints;
}

std::vector<NamedText> bodies(const Scene& scene) {
  const auto order = order_of("coco-17");
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    int place = 0;
    const auto body = people_of(frame, [&](const ScenePerson& person) -> Json {
      return {{"id", place++},
              {"score", 0.8},
              {"box", {0, 0, 100, 200}},
              {"boxRaw", {0, 0, 0.1, 0.2}},
              {"keypoints", body_keypoints(scene, person, order)},
              {"annotations", Json::object()}};
    });
    return {{"face", Json::array()},
            {"body", body},
            {"timestamp", rounded(1000 * frame.time_s, 3)},
            {"width", scene.width_px},
            {"height", scene.height_px}};
  }));
}

/// Boxes by their middle, and the kinds of the points as their names.
std::vector<NamedText> predictions(const Scene& scene) {
  const auto order = order_of("coco-17");
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    const auto write = [&](const ScenePerson& person) -> Json {
      Json keypoints = Json::array();
      for (const auto& keypoint : named_keypoints(person, order, "confidence")) {
        keypoints.push_back({{"x", keypoint["x"]},
                             {"y", keypoint["y"]},
                             {"confidence", keypoint["confidence"]},
                             {"class_id", 0},
                             {"class", keypoint["name"]}});
      }
      return {{"x", 100.5},        {"y", 200.5},        {"width", 50},           {"height", 90},
              {"confidence", 0.9}, {"class", "person"}, {"keypoints", keypoints}};
    };
    return {{"predictions", people_of(frame, write)},
            {"image", {{"width", scene.width_px}, {"height", scene.height_px}}}};
  }));
}

/// {"nose": {"x", "y"}, …} without any score.
std::vector<NamedText> places_by_name(const Scene& scene) {
  const auto order = order_of("coco-17");
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    Json points = Json::object();
    if (frame.people.empty()) return points;
    for (const auto& ordered : order) {
      const ScenePoint point = point_of(frame.people.front(), ordered);
      if (!point.seen()) continue;
      points[ordered.name] = {{"x", px(point.at_px.x())}, {"y", px(point.at_px.y())}};
    }
    return points;
  }));
}

/// {"id", "keypoints": {"nose": [x, y, score], …}}; null where not seen.
std::vector<NamedText> triples_by_name(const Scene& scene) {
  const auto order = order_of("halpe-26");
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    const auto write = [&](const ScenePerson& person) -> Json {
      Json points = Json::object();
      for (const auto& ordered : order) {
        const ScenePoint point = point_of(person, ordered);
        points[ordered.name] =
            point.seen() ? Json{px(point.at_px.x()), px(point.at_px.y()), score_of(point)} : Json();
      }
      return {{"id", person.track}, {"keypoints", points}};
    };
    return {{"frame_id", frame.number}, {"people", people_of(frame, write)}};
  }));
}

/// The joints' keys in one system's frameworks, and what they are. Written down apart from intake.
const PointOrder& framework_keys() {
  static const PointOrder keys = order_of("framework-joints");
  return keys;
}

/// Fractions from the lower left corner; confidence 0 at (0, 0) where not seen.
std::vector<NamedText> joints_by_key(const Scene& scene) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    const auto write = [&](const ScenePerson& person) {
      Json joints = Json::object();
      for (const auto& ordered : framework_keys()) {
        const ScenePoint point = point_of(person, ordered);
        const double x = rounded(point.at_px.x() / scene.width_px, 6);
        const double y = rounded(1 - point.at_px.y() / scene.height_px, 6);
        joints[ordered.name] = point.seen()
                                   ? Json{{"x", x}, {"y", y}, {"confidence", score_of(point)}}
                                   : Json{{"x", 0}, {"y", 0}, {"confidence", 0}};
      }
      return joints;
    };
    return {{"time", rounded(frame.time_s, 6)}, {"observations", people_of(frame, write)}};
  }));
}

/// In metres, x right, y up, z toward the camera.
std::vector<NamedText> joints_in_space(const Scene& scene) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    Json joints = Json::object();
    if (frame.people.empty()) return joints;
    const ScenePerson& person = frame.people.front();
    for (const auto& ordered : order_of("framework-skeleton")) {
      const ScenePoint point = point_of(person, ordered);
      joints[ordered.name] = {metres(point.at_m.x()), metres(-point.at_m.y()),
                              metres(-point.at_m.z())};
    }
    return joints;
  }));
}

}  // namespace

std::vector<Dialect> object_dialects() {
  const auto coco = order_of("coco-17");
  const char* keypoints = "objects `{x, y, score, name}` a point";
  const char* parts = "objects `{part, position}` a point";
  std::vector<Dialect> all = {
      {.form = "keypoint-objects", .title = keypoints, .points = coco, .write = browser_arrays},
      {.form = "keypoint-objects",
       .title = keypoints,
       .points = order_of("points-33"),
       .holds = {.missing = false, .tracks = true, .times = true, .space = SpaceHeld::metres},
       .write = browser_timed},
      {.form = "keypoint-objects",
       .title = keypoints,
       .points = coco,
       .holds = {.numbers = true, .image_size = true, .frame_rate = true},
       .write = browser_unnamed},
      {.form = "keypoint-objects",
       .title = keypoints,
       .points = coco,
       .holds = {.tracks = true},
       .write = keypoints_and_names},
      {.form = "keypoint-objects",
       .title = parts,
       .points = coco,
       .holds = {.people = false, .numbers = true},
       .write = parts_a_file},
      {.form = "keypoint-objects",
       .title = parts,
       .points = coco,
       .holds = {.numbers = true},
       .write = parts_by_picture},
      {.form = "keypoint-objects", .title = parts, .points = coco, .write = pose_and_skeleton},
      {.form = "keypoint-objects",
       .title = parts,
       .points = coco,
       .holds = {.times = true, .image_size = true},
       .write = bodies},
      {.form = "keypoint-objects",
       .title = "`predictions` with boxes and points",
       .points = coco,
       .holds = {.image_size = true},
       .write = predictions},
      {.form = "points-by-name",
       .title = "points by name",
       .points = coco,
       .holds = {.people = false, .confidence = false},
       .write = places_by_name},
      {.form = "points-by-name",
       .title = "points by name",
       .points = order_of("halpe-26"),
       .holds = {.tracks = true, .numbers = true},
       .write = triples_by_name},
      {.form = "joints-by-key",
       .title = "joints by a framework's keys, y up",
       .points = framework_keys(),
       .holds = {.times = true},
       .write = joints_by_key},
      {.form = "joints-by-key",
       .title = "joints by a framework's keys, y up",
       .points = order_of("framework-skeleton"),
       .holds = {.people = false,
                 .missing = false,
                 .picture = false,
                 .confidence = false,
                 .space = SpaceHeld::any_heading},
       .write = joints_in_space},
  };
  return all;
}

}  // namespace rangecheck::samples
