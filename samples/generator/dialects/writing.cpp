// SPDX-License-Identifier: MIT
#include "generator/dialects/writing.hpp"

#include <fmt/format.h>

namespace rangecheck::samples {

double score_of(const ScenePoint& point) {
  return point.seen() ? rounded(point.confidence, 3) : guessed_score;
}

Eigen::Vector3d from_hips(const ScenePerson& person, const ScenePoint& point) {
  return point.at_m - person.points[centre(Joint::pelvis)]->at_m;
}

Json people_of(const SceneFrame& frame, const std::function<Json(const ScenePerson&)>& write) {
  Json people = Json::array();
  for (const auto& person : frame.people) people.push_back(write(person));
  return people;
}

Json frames_of(const Scene& scene, const std::function<Json(const SceneFrame&)>& write) {
  Json frames = Json::array();
  for (const auto& frame : scene.frames) frames.push_back(write(frame));
  return frames;
}

std::vector<NamedText> one_file(const Json& document) {
  return {{"film.json", document.dump() + "\n"}};
}

std::vector<NamedText> one_line_each(const Json& list) {
  std::string lines;
  for (const auto& entry : list) lines += entry.dump() + "\n";
  return {{"film.jsonl", lines}};
}

std::vector<NamedText> file_a_frame(const Scene& scene,
                                    const std::function<Json(const SceneFrame&)>& write) {
  std::vector<NamedText> files;
  for (const auto& frame : scene.frames) {
    files.push_back({fmt::format("frame_{}.json", frame.number), write(frame).dump() + "\n"});
  }
  return files;
}

}  // namespace rangecheck::samples
