// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <vector>

#include "measure/measurement.hpp"

namespace rangecheck::measure {

#define RULES(name) extern const RuleSet name;
#include "measure/rules.def"
#undef RULES

namespace {

std::vector<const Rule*> registered() {
  std::vector<const Rule*> rules;
  const auto add = [&rules](RuleSet set) {
    for (const Rule& rule : set) rules.push_back(&rule);
  };
#define RULES(name) add(name);
#include "measure/rules.def"
#undef RULES
  std::ranges::stable_sort(rules, {}, &Rule::region);
  return rules;
}

}  // namespace

std::span<const Rule* const> catalogue() {
  static const std::vector<const Rule*> rules = registered();
  return rules;
}

const Rule* find_rule(std::string_view id) {
  const auto rules = catalogue();
  const auto found = std::ranges::find(rules, id, &Rule::id);
  return found == rules.end() ? nullptr : *found;
}

std::string_view name_of(Region region) {
  static constexpr std::array<std::string_view, 12> names = {
      "feet",  "knees", "hips", "spine", "shoulders", "arms",
      "hands", "grip",  "head", "club",  "balance",   "timing"};
  return names[static_cast<std::size_t>(region)];
}

std::string_view name_of(Moment moment) {
  const auto number = static_cast<std::size_t>(moment);
  if (number < position_count) return title_of(static_cast<Position>(number));
  static constexpr std::array<std::string_view, moment_count - position_count> peaks = {
      "greatest speed of the pelvis' turn", "greatest speed of the chest's turn",
      "greatest speed of the arms' turn", "greatest speed of the club's turn"};
  return peaks[number - position_count];
}

std::string check_id(std::string_view rule, std::optional<Position> position) {
  if (!position || *position == Position::address) return std::string(rule);
  return std::string(id_of(*position)) + "/" + std::string(rule);
}

InOrder place_in_order(const std::string& check, std::optional<Position> position) {
  const std::string_view rule = std::string_view(check).substr(check.find('/') + 1);
  const auto rules = catalogue();
  const auto found =
      std::find_if(rules.begin(), rules.end(), [&](const Rule* one) { return one->id == rule; });
  return {position ? index_of(*position) : position_count, found - rules.begin(), check};
}

}  // namespace rangecheck::measure
