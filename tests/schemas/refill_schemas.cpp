// SPDX-License-Identifier: MIT
// refill_schemas FOLDER [--check]: puts the lists that the program registers (measures by position
// and kind of quantity, times, readings, positions, regions, landmarks, criteria of films, points
// of the club) into the schemas of FOLDER. With --check it changes nothing and fails where that
// would change something: a schema can't drift from the program.
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "grade/filming_kinds.hpp"
#include "grade/reading.hpp"
#include "intake/club_points.hpp"
#include "measure/measurement.hpp"

namespace rangecheck {
namespace {

using Json = nlohmann::ordered_json;

Json reference(const std::string& definition) { return {{"$ref", "#/$defs/" + definition}}; }

/// What is under the id of a rule where it can be checked.
Json check_of(Dimension dimension, std::string_view title, std::string_view sign) {
  Json out = {{"title", title}};
  if (!sign.empty()) out["description"] = sign;
  out.update(reference(std::string(name_of(dimension)) + "-check"));
  return out;
}

/// Every id of the registration: for each what `of` gives of its rule, or of a reading (nullptr).
template <class Of>
Json by_id(const Of& of) {
  Json out = Json::object();
  for (const auto* rule : measure::catalogue()) out[std::string(rule->id)] = of(rule);
  for (const auto& kind : grade::reading_kinds()) out[std::string(kind.id)] = of(nullptr);
  return out;
}

Json section_at(Position position) {
  const auto here = [position](const measure::Rule* rule) -> Json {
    if (!rule || !rule->at.has(position)) return false;
    return check_of(rule->dimension, rule->title, rule->sign);
  };
  return {{"type", "object"},
          {"properties", by_id(here)},
          {"additionalProperties", reference("own-check")}};
}

void fill_profile(Json& schema) {
  Json& defs = schema["$defs"];
  Json& positions = schema["properties"]["positions"]["properties"];
  positions = Json::object();
  for (const Position position : all_positions) {
    const std::string name = fmt::format("at-{}", id_of(position));
    defs[name] = section_at(position);
    positions[std::string(id_of(position))] = reference(name);
  }
  for (const Position position : all_positions)
    positions[std::string(alias_of(position))] = reference(fmt::format("at-{}", id_of(position)));
  Json times = Json::object(), readings = Json::object();
  for (const auto* rule : measure::catalogue())
    if (rule->is_timing())
      times[std::string(rule->id)] = check_of(rule->dimension, rule->title, rule->sign);
  for (const auto& kind : grade::reading_kinds())
    readings[std::string(kind.id)] = check_of(kind.dimension, kind.title, "");
  defs["tempo"] = {{"type", "object"}, {"properties", times}, {"additionalProperties", false}};
  defs["readings"] = {
      {"type", "object"}, {"properties", readings}, {"additionalProperties", false}};
  defs["observed"] = {{"type", "object"},
                      {"properties", by_id([](const measure::Rule*) { return Json(false); })},
                      {"additionalProperties", reference("word-check")}};
}

Json enumeration(const std::vector<std::string>& words) { return {{"enum", words}}; }

void fill_measures(Json& schema) {
  Json& defs = schema["$defs"];
  std::vector<std::string> positions, regions, landmarks, taken;
  for (const Position position : all_positions) positions.emplace_back(id_of(position));
  for (const Position position : all_positions) positions.emplace_back(alias_of(position));
  for (std::size_t i = 0; i < static_cast<std::size_t>(measure::Region::timing); ++i)
    regions.emplace_back(measure::name_of(static_cast<measure::Region>(i)));
  for (const char between : {' ', '-', '_'}) {
    for (std::size_t i = 0; i < landmark_count; ++i) {
      std::string name = name_of(landmark_at(i));
      std::ranges::replace(name, ' ', between);
      if (std::ranges::find(landmarks, name) == landmarks.end()) landmarks.push_back(name);
    }
  }
  const Json all = by_id([](const measure::Rule*) { return Json(); });
  for (const auto& [id, unused] : all.items()) taken.push_back(id);
  defs["position"] = enumeration(positions);
  defs["region"] = enumeration(regions);
  defs["landmark"] = enumeration(landmarks);
  defs["free-id"] = {{"pattern", "^[^/]+$"}, {"not", enumeration(taken)}};
}

void fill_filming(Json& schema) {
  Json criteria = Json::object();
  for (const auto& kind : grade::filming_kinds())
    criteria[std::string(kind.id)] = reference(std::string(name_of(kind.dimension)) + "-criterion");
  schema["$defs"]["criteria"] = {
      {"type", "object"}, {"properties", criteria}, {"additionalProperties", false}};
}

void fill_manifest(Json& schema) {
  Json& click = schema["$defs"]["click"]["properties"];
  Json filled = {{"frame", click["frame"]}, {"time", click["time"]}};
  for (std::size_t i = 0; i < intake::club_joint_count; ++i)
    filled[std::string(key_of(intake::club_joint(i)))] = reference("point");
  click = filled;
}

struct File {
  const char* name;
  void (*fill)(Json&);
};
constexpr File files[] = {{"profile", fill_profile},
                          {"measures", fill_measures},
                          {"filming", fill_filming},
                          {"manifest", fill_manifest}};

/// Whether the file holds what it should, at the end.
bool refill(const std::string& folder, const File& file, bool check) {
  const std::string path = folder + "/" + file.name + ".schema.json";
  std::stringstream was;
  was << std::ifstream(path).rdbuf();
  Json schema = Json::parse(was.str());
  file.fill(schema);
  const std::string is = schema.dump(2) + "\n";
  if (is == was.str()) return true;
  if (check)
    std::cerr << path << " is not what the program registers: run refill_schemas " << folder
              << "\n";
  else
    std::ofstream(path) << is;
  return !check;
}

}  // namespace
}  // namespace rangecheck

int main(int count, char** words) {
  if (count < 2) return 2;
  bool right = true;
  for (const auto& file : rangecheck::files)
    right = rangecheck::refill(words[1], file, count > 2) && right;
  return right ? 0 : 1;
}
