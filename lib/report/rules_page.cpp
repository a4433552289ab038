// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

using measure::Rule;

std::string_view unit_symbol(const Rule& rule) {
  const auto symbol =
      rule.dimension == Dimension::length ? "m" : display_unit(rule.dimension).symbol;
  return symbol.empty() ? "1" : symbol;
}

/// " deg" after a number, nothing after a ratio.
std::string after_number(const Rule& rule) {
  const auto symbol = unit_symbol(rule);
  return symbol == "1" ? "" : " " + std::string(symbol);
}

std::string number(double value) {
  std::string text = fmt::format("{:.4f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string example_text(const Rule& rule, const measure::WorkedExample& example) {
  std::string text;
  for (std::size_t i = 0; i < example.points.size() && i < rule.needs.size(); ++i) {
    const auto& [x, y, z] = example.points[i];
    text += fmt::format("{}{} ({}, {}, {})", i > 0 ? ", " : "", name_of(rule.needs[i]), number(x),
                        number(y), number(z));
  }
  return fmt::format("{} gives {}{} ({})", text, number(example.expected), after_number(rule),
                     example.source);
}

std::string needs_text(const Rule& rule) {
  std::vector<std::string> names;
  for (const LandmarkId id : rule.needs) names.push_back(name_of(id));
  return listed(names);
}

}  // namespace

std::string rules_table() {
  std::size_t id_width = 0;
  std::size_t title_width = 0;
  for (const Rule* rule : measure::catalogue()) {
    id_width = std::max(id_width, columns(rule->id));
    title_width = std::max(title_width, columns(rule->title));
  }
  std::string table;
  std::optional<measure::Region> region;
  for (const Rule* rule : measure::catalogue()) {
    if (region != rule->region) {
      if (region) table += "\n";
      table += fmt::format("{}\n", measure::name_of(rule->region));
      region = rule->region;
    }
    table +=
        fmt::format("  {}  {}  {}  {}\n", padded(rule->id, id_width),
                    padded(rule->title, title_width), padded(unit_symbol(*rule), 3), rule->sign);
  }
  return table;
}

std::string rule_page(const Rule& rule) {
  const Unit limit_unit =
      rule.dimension == Dimension::length ? *find_unit("m") : display_unit(rule.dimension);
  std::string page = fmt::format("{}: {}\n\n", rule.id, rule.title);
  page += paragraph(measure::name_of(rule.region), "  region    ");
  page += paragraph(unit_symbol(rule), "  unit      ");
  page += paragraph(rule.sign, "  sign      ");
  page += paragraph(needs_text(rule), "  needs     ");
  page += paragraph(fmt::format("when its standard uncertainty is at most {}{}",
                                number(shown(rule.seen_limit_si, limit_unit)), after_number(rule)),
                    "  seen      ");
  page += paragraph(rule.limit, "  limit     ");
  page += paragraph(rule.source, "  source    ");
  if (!rule.categories.empty()) {
    std::vector<std::string> names;
    for (const auto& category : rule.categories) names.emplace_back(category.name);
    page += paragraph(listed(names, "or"), "  in words  ");
  }
  for (const auto& example : rule.examples)
    page += paragraph(example_text(rule, example), "  example   ");
  page += "\nPoints are in metres in the golfer frame: (toward the target, up, toward the ball).\n";
  return page;
}

}  // namespace rangecheck::report
