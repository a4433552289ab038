// SPDX-License-Identifier: MIT
#include <algorithm>

#include "base/text.hpp"
#include "grade/filming_kinds.hpp"
#include "grade/reading.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

struct Section {
  std::string_view name;
  std::vector<std::string> ids;
};

std::vector<Section> sections_of(const grade::ProfileSet& profiles) {
  std::vector<Section> sections{
      {"measures", {}}, {"filming", {}}, {"clubs", {}}, {"categories", {}}};
  std::vector<const measure::Rule*> rules(measure::catalogue().begin(), measure::catalogue().end());
  for (const auto& own : profiles.own_measures) rules.push_back(&own->rule());
  for (const auto* rule : rules) {
    sections[0].ids.emplace_back(rule->id);
    for (const auto& category : rule->categories) sections[3].ids.push_back(kebab(category.name));
  }
  for (const auto& kind : grade::reading_kinds()) sections[0].ids.emplace_back(kind.id);
  for (const auto& kind : grade::filming_kinds()) sections[1].ids.emplace_back(kind.id);
  for (const auto& [club, family] : profiles.club_families) sections[2].ids.push_back(club);
  return sections;
}

}  // namespace

std::optional<Error> unknown_words(const Words& words, const grade::ProfileSet& profiles) {
  const auto sections = sections_of(profiles);
  const Words& shipped = shipped_words(words.language());
  for (const auto& [id, sentence] : words.sentences()) {
    // What is shipped may well speak of clubs that this coach does not have.
    if (shipped.has(id)) continue;
    const auto parts = split(id, '.');
    const auto section = std::ranges::find(sections, parts.front(), &Section::name);
    if (section == sections.end() || parts.size() < 2) continue;
    const std::string named(parts[1]);
    if (std::ranges::find(section->ids, named) != section->ids.end()) continue;
    const std::vector<std::string_view> known(section->ids.begin(), section->ids.end());
    const std::string near = nearest(named, known);
    Error error;
    error.fault = Fault::bad_profile;
    error.what = "there is nothing called " + rangecheck::quoted(named);
    error.where.file = "words/" + words.language() + ".yaml";
    error.where.key = printable(id);
    if (!near.empty()) error.remedy = "did you mean " + near + "?";
    return error;
  }
  return std::nullopt;
}

}  // namespace rangecheck::report
