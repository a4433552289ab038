// SPDX-License-Identifier: MIT
// What the words in profile files may name, and the small readers that all of these files share.
#include <algorithm>

#include "base/text.hpp"
#include "grade/profile_file.hpp"
#include "grade/reading.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::grade {

std::optional<Named> find_subject(std::string_view id, const Known& known) {
  if (const auto* rule = measure::find_rule(id)) return Named{Subject::measured, rule->dimension};
  if (const auto* kind = find_reading(id)) return Named{Subject::reading, kind->dimension};
  if (known.observations.contains(std::string(id))) return Named{Subject::observed, std::nullopt};
  return std::nullopt;
}

std::vector<std::string_view> subject_ids(const Known& known) {
  std::vector<std::string_view> ids;
  for (const auto* rule : measure::catalogue()) ids.push_back(rule->id);
  for (const auto& kind : reading_kinds()) ids.push_back(kind.id);
  ids.insert(ids.end(), known.observations.begin(), known.observations.end());
  return ids;
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string near = nearest(word, candidates);
  return near.empty() ? "" : "did you mean " + near + "?";
}

std::optional<std::vector<std::string>> optional_words(yaml::Map& map, std::string_view key) {
  const YAML::Node found = map.node(key);
  if (!found) return std::nullopt;
  if (found.IsScalar()) return std::vector<std::string>{found.Scalar()};
  std::vector<std::string> words;
  const bool all_words =
      found.IsSequence() && std::ranges::all_of(found, [](const auto& n) { return n.IsScalar(); });
  if (!all_words) {
    map.fault(key, "should be a list of words", "write [one, two]");
    return std::nullopt;
  }
  for (const auto& item : found) words.push_back(item.Scalar());
  return words;
}

std::optional<Target> optional_target(yaml::Map& map, std::string_view key, Dimension wanted) {
  const auto written = map.optional_text(key);
  if (!written) return std::nullopt;
  const auto target = parse_target(*written, wanted);
  if (target) return *target;
  map.fault(key, target.error().what, target.error().remedy);
  return std::nullopt;
}

void require_version(yaml::Map& map) {
  if (map.number("version") != 1)
    map.fault("version", "this version of rangecheck reads version 1 only", "write `version: 1`");
}

std::string origin_of(const Place& place) {
  return place.line ? place.file + ":" + std::to_string(*place.line) : place.file;
}

}  // namespace rangecheck::grade
