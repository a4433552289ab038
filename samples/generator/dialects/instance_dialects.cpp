// SPDX-License-Identifier: MIT
// Forms that are one detector's own.
#include <fmt/format.h>

#include "generator/dialects/writing.hpp"

namespace rangecheck::samples {
namespace {

/// {"0": "nose", …}.
Json names_by_index(const PointOrder& order) {
  Json names = Json::object();
  for (std::size_t i = 0; i < order.size(); ++i) names[std::to_string(i)] = order[i].name;
  return names;
}

// ------------------------------------------------------------------------- instances

/// Each point has a place and a score.
Json instance(const ScenePerson& person, const PointOrder& order) {
  Json places = Json::array(), scores = Json::array();
  for (const auto& point : points_of(person, order)) {
    places.push_back({px(point.at_px.x()), px(point.at_px.y())});
    scores.push_back(score_of(point));
  }
  return {{"keypoints", places},
          {"keypoint_scores", scores},
          {"bbox", {{10.5, 20.5, 110.5, 320.5}}},
          {"bbox_score", 0.9}};
}

Json instances(const SceneFrame& frame, const PointOrder& order) {
  return people_of(frame, [&](const ScenePerson& person) { return instance(person, order); });
}

Json with_names(const PointOrder& order, const Json& frames) {
  return {{"meta_info",
           {{"num_keypoints", order.size()},
            {"keypoint_id2name", names_by_index(order)},
            {"sigmas",
             {{"__ndarray__", {0.026, 0.025}}, {"dtype", "float32"}, {"shape", {order.size()}}}}}},
          {"instance_info", frames}};
}

std::vector<NamedText> named_instances(const Scene& scene, const PointOrder& order) {
  return one_file(
      with_names(order, frames_of(scene, [&](const SceneFrame& frame) -> Json {
                   return {{"frame_id", frame.number + 1}, {"instances", instances(frame, order)}};
                 })));
}

std::vector<NamedText> numbered_instances(const Scene& scene, const PointOrder& order) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    return {{"frame_id", frame.number}, {"instances", instances(frame, order)}};
  }));
}

std::vector<NamedText> instances_a_picture(const Scene& scene, const PointOrder& order) {
  return file_a_frame(scene, [&](const SceneFrame& frame) { return instances(frame, order); });
}

/// The lifter's points: x to the left, y away from the camera, z up from the lowest point of the
/// frame, in a unit of its own.
Json lifted(const ScenePerson& person, const PointOrder& order) {
  constexpr double unit_m = 1.37;
  double lowest_m = -HUGE_VAL;  // y is down
  for (const auto& point : points_of(person, order)) lowest_m = std::max(lowest_m, point.at_m.y());
  Json places = Json::array(), scores = Json::array();
  for (const auto& point : points_of(person, order)) {
    const auto at = from_hips(person, point);
    places.push_back({rounded(-at.x() / unit_m, 5), rounded(at.z() / unit_m, 5),
                      rounded((lowest_m - point.at_m.y()) / unit_m, 5)});
    scores.push_back(score_of(point));
  }
  return {{"keypoints", places}, {"keypoint_scores", scores}};
}

std::vector<NamedText> lifted_instances(const Scene& scene, const PointOrder& order) {
  return one_file(with_names(order, frames_of(scene, [&](const SceneFrame& frame) -> Json {
                               return {
                                   {"frame_id", frame.number + 1},
                                   {"instances", people_of(frame, [&](const ScenePerson& person) {
                                      return lifted(person, order);
                                    })}};
                             })));
}

// ------------------------------------------------------------------------- others

std::vector<NamedText> by_track(const Scene& scene, const PointOrder& order) {
  const Json frames = frames_of(scene, [&](const SceneFrame& frame) {
    Json people = Json::object();
    for (const auto& person : frame.people) {
      Json points = Json::array();
      for (const auto& point : points_of(person, order)) {
        points.push_back({px(point.at_px.y()), px(point.at_px.x()), score_of(point)});
      }
      people[std::to_string(person.track)] = points;
    }
    return people;
  });
  return one_file({{"keypoints", frames}, {"skeleton", names_by_index(order)}});
}

/// What was not seen is at 0, 0 with confidence 0.
std::vector<NamedText> columns(const Scene& scene, const PointOrder& order) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    return people_of(frame, [&](const ScenePerson& person) -> Json {
      Json x = Json::array(), y = Json::array(), visible = Json::array();
      for (const auto& point : points_of(person, order)) {
        x.push_back(point.seen() ? px(point.at_px.x()) : 0);
        y.push_back(point.seen() ? px(point.at_px.y()) : 0);
        visible.push_back(point.seen() ? score_of(point) : 0);
      }
      return {{"name", "person"},
              {"class", 0},
              {"confidence", 0.9},
              {"box", {{"x1", 10.5}, {"y1", 20.5}, {"x2", 110.5}, {"y2", 320.5}}},
              {"track_id", person.track},
              {"keypoints", {{"x", x}, {"y", y}, {"visible", visible}}}};
    });
  }));
}

Json row(std::size_t number, const ScenePerson& person, const PointOrder& order) {
  Json numbers = {number, 0, 60.5, 170.5, 100, 300, 0.9};
  for (const auto& point : points_of(person, order)) {
    numbers.push_back(point.seen() ? px(point.at_px.x()) : 0);
    numbers.push_back(point.seen() ? px(point.at_px.y()) : 0);
    numbers.push_back(point.seen() ? score_of(point) : 0);
  }
  return numbers;
}

std::vector<NamedText> numbered_rows(const Scene& scene, const PointOrder& order) {
  Json rows = Json::array();
  for (const auto& frame : scene.frames) {
    for (const auto& person : frame.people) rows.push_back(row(frame.number, person, order));
  }
  return one_file(rows);
}

std::vector<NamedText> rows_a_frame(const Scene& scene, const PointOrder& order) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) {
    return people_of(frame, [&](const ScenePerson& person) { return row(0, person, order); });
  }));
}

/// One moment of a track; what was not seen is left out, and so is a coordinate of 0.
Json moment(const Scene& scene, const SceneFrame& frame, const ScenePerson& person,
            const PointOrder& order) {
  Json landmarks = Json::array();
  for (const auto& ordered : order) {
    const ScenePoint point = point_of(person, ordered);
    if (!point.seen()) continue;
    landmarks.push_back({{"name", ordered.name},
                         {"point",
                          {{"x", rounded(point.at_px.x() / scene.width_px, 6)},
                           {"y", rounded(point.at_px.y() / scene.height_px, 6)}}},
                         {"confidence", score_of(point)}});
  }
  return {{"timeOffset", fmt::format("{:.6f}s", frame.time_s)}, {"landmarks", landmarks}};
}

std::vector<NamedText> tracks(const Scene& scene, const PointOrder& order) {
  Json by_person = Json::array();
  for (const int track : {0, 1}) {
    Json moments = Json::array();
    for (const auto& frame : scene.frames) {
      for (const auto& person : frame.people) {
        if (person.track == track) moments.push_back(moment(scene, frame, person, order));
      }
    }
    by_person.push_back({{"timestampedObjects", moments}, {"confidence", 0.9}});
  }
  const Json annotations = {{{"tracks", by_person}, {"version", "1"}}};
  return one_file({{"annotationResults", {{{"personDetectionAnnotations", annotations}}}}});
}

using Writer = std::vector<NamedText> (*)(const Scene&, const PointOrder&);

Dialect entry(std::string_view form, std::string_view title, std::string_view set,
              const Holds& holds, Writer write) {
  const auto order = order_of(set);
  Dialect dialect{.form = form, .title = title, .points = order, .holds = holds, .write = {}};
  dialect.write = [=](const Scene& scene) { return write(scene, order); };
  return dialect;
}

Dialect counted_from_1(Dialect dialect) {
  dialect.first_number = 1;
  return dialect;
}

Dialect in_fractions(Dialect dialect) {
  dialect.within_px = 0.001;
  return dialect;
}

}  // namespace

std::vector<Dialect> instance_dialects() {
  const auto title = "`instances` with points and scores";
  const Holds numbered = {.numbers = true};
  Holds with_hands = numbered, in_space = numbered;
  with_hands.hands = true;
  in_space.missing = in_space.picture = false;
  in_space.space = SpaceHeld::any_size;
  return {
      counted_from_1(entry("instances", title, "halpe-26", numbered, named_instances)),
      counted_from_1(entry("instances", title, "wholebody-133", with_hands, named_instances)),
      entry("instances", title, "coco-17", numbered, numbered_instances),
      entry("instances", title, "coco-17", numbered, instances_a_picture),
      counted_from_1(entry("instances", title, "h36m-17", in_space, lifted_instances)),
      entry("points-by-track", "people by track, y before x", "vitpose-25", {.tracks = true},
            by_track),
      entry("columns-of-points", "lists of x, of y and of confidence", "coco-17", {.tracks = true},
            columns),
      entry("detection-rows", "rows of 58 numbers a person", "coco-17",
            {.numbers = true, .empty_frames = false}, numbered_rows),
      entry("detection-rows", "rows of 58 numbers a person", "coco-17", {}, rows_a_frame),
      in_fractions(entry("tracked-landmarks", "a video service's tracks", "coco-17",
                         {.tracks = true, .times = true, .empty_frames = false}, tracks)),
  };
}

}  // namespace rangecheck::samples
