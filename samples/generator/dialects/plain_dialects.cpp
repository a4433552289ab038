// SPDX-License-Identifier: MIT
// The plain form, with everything in it that it can hold.
#include "generator/dialects/writing.hpp"

namespace rangecheck::samples {
namespace {

PointOrder all_points() {
  PointOrder order;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    order.push_back({anatomical_name(id), id});
  }
  return order;
}

/// Points that were not seen are left out or null.
Json plain_person(const ScenePerson& person) {
  Json points = Json::object(), space = Json::object();
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& point = person.points.values()[i];
    if (!point) continue;
    const std::string name = anatomical_name(landmark_at(i));
    if (!point->seen()) {
      points[name] = nullptr;
      continue;
    }
    points[name] = {px(point->at_px.x()), px(point->at_px.y()), score_of(*point)};
    space[name] = {metres(point->at_m.x()), metres(point->at_m.y()), metres(point->at_m.z())};
  }
  return {{"track", person.track}, {"points", points}, {"space", space}};
}

Json plain_header(const Scene& scene) {
  return {{"format", "rangecheck-landmarks"},
          {"version", 1},
          {"image", {{"width", scene.width_px}, {"height", scene.height_px}}},
          {"frame-rate", scene.frame_rate_hz}};
}

Json plain_frames(const Scene& scene) {
  return frames_of(scene, [](const SceneFrame& frame) -> Json {
    return {{"frame", frame.number},
            {"time", rounded(frame.time_s, 6)},
            {"people", people_of(frame, plain_person)}};
  });
}

std::vector<NamedText> document(const Scene& scene) {
  Json all = plain_header(scene);
  all["frames"] = plain_frames(scene);
  return one_file(all);
}

std::vector<NamedText> lines(const Scene& scene) {
  Json all = Json::array({plain_header(scene)});
  for (const auto& frame : plain_frames(scene)) all.push_back(frame);
  return one_line_each(all);
}

}  // namespace

std::vector<Dialect> plain_dialects() {
  constexpr std::string_view title = "the plain form";
  const Holds holds = {.hands = true,
                       .space_confidence = false,
                       .tracks = true,
                       .numbers = true,
                       .times = true,
                       .image_size = true,
                       .frame_rate = true,
                       .space = SpaceHeld::metres};
  return {
      {.form = "plain", .title = title, .points = all_points(), .holds = holds, .write = document},
      {.form = "plain", .title = title, .points = all_points(), .holds = holds, .write = lines}};
}

}  // namespace rangecheck::samples
