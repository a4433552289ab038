// SPDX-License-Identifier: MIT
// The 33 points in all the shapes in which programs keep them. The estimator always guesses: a
// point that it does not see has a low visibility and a place all the same.
#include <cctype>

#include "generator/dialects/writing.hpp"

namespace rangecheck::samples {
namespace {

PointOrder order_33() { return order_of("points-33"); }

std::string capitals(std::string name) {
  for (char& c : name) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return name;
}

/// In fractions of the picture; z in its widths.
Json in_picture(const Scene& scene, const ScenePerson& person, const ScenePoint& point) {
  return {{"x", rounded(point.at_px.x() / scene.width_px, 6)},
          {"y", rounded(point.at_px.y() / scene.height_px, 6)},
          {"z", rounded(from_hips(person, point).z() / 4, 4)},
          {"visibility", score_of(point)}};
}

Json in_metres(const ScenePerson& person, const ScenePoint& point) {
  const auto at = from_hips(person, point);
  return {{"x", metres(at.x())},
          {"y", metres(at.y())},
          {"z", metres(at.z())},
          {"visibility", score_of(point)}};
}

Json image_list(const Scene& scene, const ScenePerson& person, const PointOrder& order) {
  Json points = Json::array();
  for (const auto& point : points_of(person, order)) {
    points.push_back(in_picture(scene, person, point));
  }
  return points;
}

Json world_list(const ScenePerson& person, const PointOrder& order) {
  Json points = Json::array();
  for (const auto& point : points_of(person, order)) points.push_back(in_metres(person, point));
  return points;
}

/// Null for a frame without people, else what `write` makes of the first of them.
std::vector<NamedText> of_the_first(const Scene& scene,
                                    const std::function<Json(const ScenePerson&)>& write) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    return frame.people.empty() ? Json() : write(frame.people.front());
  }));
}

std::vector<NamedText> lists(const Scene& scene) {
  return of_the_first(
      scene, [&](const ScenePerson& person) { return image_list(scene, person, order_33()); });
}

std::vector<NamedText> lists_a_file(const Scene& scene) {
  return file_a_frame(scene, [&](const SceneFrame& frame) {
    return frame.people.empty() ? Json() : image_list(scene, frame.people.front(), order_33());
  });
}

/// {"landmarks": [[33], …], "worldLandmarks": [[33], …]}.
std::vector<NamedText> results(const Scene& scene) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    return {{"landmarks", people_of(frame,
                                    [&](const ScenePerson& person) {
                                      return image_list(scene, person, order_33());
                                    })},
            {"worldLandmarks", people_of(frame, [&](const ScenePerson& person) {
               return world_list(person, order_33());
             })}};
  }));
}

/// With 21 points for each hand.
std::vector<NamedText> with_hands(const Scene& scene) {
  return of_the_first(scene, [&](const ScenePerson& person) -> Json {
    return {{"poseLandmarks", image_list(scene, person, order_33())},
            {"poseWorldLandmarks", world_list(person, order_33())},
            {"leftHandLandmarks", image_list(scene, person, order_of("left-hand-21"))},
            {"rightHandLandmarks", image_list(scene, person, order_of("right-hand-21"))}};
  });
}

std::vector<NamedText> wrapped(const Scene& scene) {
  const auto write = [&](const ScenePerson& person) -> Json {
    return {{"pose_landmarks", {{"landmark", image_list(scene, person, order_33())}}},
            {"pose_world_landmarks", {{"landmark", world_list(person, order_33())}}}};
  };
  return one_line_each(frames_of(scene, [&](const SceneFrame& frame) {
    Json line =
        frame.people.empty() ? Json{{"pose_landmarks", nullptr}} : write(frame.people.front());
    line["frame"] = frame.number;
    line["timestamp_ms"] = rounded(1000 * frame.time_s, 3);
    return line;
  }));
}

/// {"0": {…}, …}.
std::vector<NamedText> by_index(const Scene& scene) {
  return of_the_first(scene, [&](const ScenePerson& person) {
    Json points = Json::object();
    for (const auto& point : points_of(person, order_33())) {
      points[std::to_string(points.size())] = in_picture(scene, person, point);
    }
    return points;
  });
}

/// {"NOSE": [x, y, z], …}, without visibility.
std::vector<NamedText> by_name(const Scene& scene) {
  return of_the_first(scene, [&](const ScenePerson& person) {
    Json points = Json::object();
    for (const auto& ordered : order_33()) {
      const Json at = in_picture(scene, person, point_of(person, ordered));
      points[capitals(ordered.name)] = {at["x"], at["y"], at["z"]};
    }
    return points;
  });
}

/// A column for each point, in one file with the film's facts.
std::vector<NamedText> columns(const Scene& scene) {
  Json landmarks = Json::object();
  for (const auto& ordered : order_33()) {
    Json column = Json::array();
    for (const auto& frame : scene.frames) {
      const bool nobody = frame.people.empty();
      column.push_back(nobody ? Json()
                              : in_picture(scene, frame.people.front(),
                                           point_of(frame.people.front(), ordered)));
    }
    landmarks[capitals(ordered.name)] = column;
  }
  return one_file({{"width", scene.width_px},
                   {"height", scene.height_px},
                   {"fps", scene.frame_rate_hz},
                   {"frames", scene.frames.size()},
                   {"landmarks", landmarks}});
}

/// [x, y, z] in pixels.
std::vector<NamedText> bare_pixels(const Scene& scene) {
  return of_the_first(scene, [&](const ScenePerson& person) {
    Json points = Json::array();
    for (const auto& point : points_of(person, order_33())) {
      points.push_back({px(point.at_px.x()), px(point.at_px.y()), px(point.at_m.z())});
    }
    return points;
  });
}

std::vector<NamedText> bare_metres(const Scene& scene) {
  return of_the_first(scene, [&](const ScenePerson& person) {
    Json points = Json::array();
    for (const auto& point : points_of(person, order_33())) {
      const auto at = from_hips(person, point);
      points.push_back({metres(at.x()), metres(at.y()), metres(at.z())});
    }
    return points;
  });
}

/// In pixels with types by number, the place in an object of its own.
std::vector<NamedText> typed_by_number(const Scene& scene) {
  return of_the_first(scene, [&](const ScenePerson& person) {
    Json points = Json::array();
    for (const auto& point : points_of(person, order_33())) {
      const Json position = {{"x", px(point.at_px.x())}, {"y", px(point.at_px.y())}, {"z", 0.5}};
      points.push_back({{"type", points.size()},
                        {"position", position},
                        {"inFrameLikelihood", score_of(point)}});
    }
    return points;
  });
}

std::vector<NamedText> typed_by_name(const Scene& scene) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    const auto write = [&](const ScenePerson& person) -> Json {
      Json points = Json::array();
      for (const auto& ordered : order_33()) {
        const ScenePoint point = point_of(person, ordered);
        points.push_back({{"type", "PoseLandmarkType." + camel_case(ordered.name)},
                          {"x", px(point.at_px.x())},
                          {"y", px(point.at_px.y())},
                          {"z", 0.5},
                          {"likelihood", score_of(point)}});
      }
      return {{"landmarks", points}};
    };
    return {{"timestamp", rounded(1000 * frame.time_s, 3)}, {"poses", people_of(frame, write)}};
  }));
}

Dialect entry(std::string_view form, std::string_view title, const Holds& holds,
              std::vector<NamedText> (*write)(const Scene&)) {
  return {.form = form, .title = title, .points = order_33(), .holds = holds, .write = write};
}

}  // namespace

std::vector<Dialect> points_33_dialects() {
  constexpr std::string_view title = "lists of `{x, y, z, visibility}`";
  constexpr std::string_view typed = "points with `type` and likelihood";
  const Holds one = {.people = false, .missing = false};
  Holds numbered = one, with_space = one, hands = one, timed = one, told = one, bare = one;
  numbered.numbers = true;
  with_space.people = true;
  with_space.space = hands.space = timed.space = SpaceHeld::metres;
  hands.hands = true;
  timed.numbers = timed.times = true;
  told.image_size = told.frame_rate = true;
  bare.confidence = false;
  Holds space_only = bare;
  space_only.picture = false;
  space_only.space = SpaceHeld::metres;
  Holds typed_people = one;
  typed_people.people = typed_people.times = true;
  return {
      entry("points-33", title, one, lists),
      entry("points-33", title, numbered, lists_a_file),
      entry("points-33", title, with_space, results),
      entry("points-33", title, hands, with_hands),
      entry("points-33", title, timed, wrapped),
      entry("points-33", "points by index: `{\"0\": {x, y, z, visibility}}`", one, by_index),
      entry("points-33", "points by name: `{\"NOSE\": [x, y, z]}`", bare, by_name),
      entry("points-33", "bare points, in pixels or metres", bare, bare_pixels),
      entry("points-33", "bare points, in pixels or metres", space_only, bare_metres),
      entry("landmark-columns", "a column for each point", told, columns),
      entry("typed-landmarks", typed, one, typed_by_number),
      entry("typed-landmarks", typed, typed_people, typed_by_name),
  };
}

}  // namespace rangecheck::samples
