// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/text.hpp"
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

std::string names(std::span<const LandmarkId> ids) {
  std::vector<std::string> names;
  for (const LandmarkId id : ids) names.push_back(name_of(id));
  return listed(names);
}

std::string moment_name(measure::Moment moment) { return lower(measure::name_of(moment)); }

/// "lead heel (0.18, 0, 0), at address trail heel (-0.18, 0, 0)", or "top 1.2 s".
std::string given_text(const Rule& rule, const measure::WorkedExample& example) {
  std::vector<std::string> given;
  for (std::size_t i = 0; i < example.points.size(); ++i) {
    const auto& [x, y, z] = example.points[i];
    const bool now = i < rule.needs.size();
    const LandmarkId id = now ? rule.needs[i] : rule.address_needs[i - rule.needs.size()];
    given.push_back(fmt::format("{}{} ({}, {}, {})", now ? "" : "at address ", name_of(id),
                                number(x), number(y), number(z)));
  }
  for (std::size_t i = 0; i < example.times_s.size(); ++i)
    given.push_back(
        fmt::format("{} {} s", moment_name(rule.moments[i]), number(example.times_s[i])));
  return fmt::format("{}", fmt::join(given, ", "));
}

std::string example_text(const Rule& rule, const measure::WorkedExample& example) {
  return fmt::format("{} gives {}{} ({})", given_text(rule, example), number(example.expected),
                     after_number(rule), example.source);
}

std::string needs_text(const Rule& rule) {
  if (!rule.is_timing()) return names(rule.needs);
  std::vector<std::string> moments;
  for (const measure::Moment moment : rule.moments) moments.push_back(moment_name(moment));
  return "the times of " + listed(moments);
}

std::string where_text(const Rule& rule) {
  return rule.is_timing() ? "the swing as a whole" : listed(names_of(english(), rule.at));
}

/// A line of the page, or nothing: a coach's own measure need not say everything.
std::string line(std::string_view label, std::string_view text) {
  return text.empty() ? "" : paragraph(text, fmt::format("  {:<10}", label));
}

}  // namespace

std::string rules_table() {
  std::size_t id_width = 0;
  std::size_t title_width = 0;
  std::size_t where_width = 0;
  const auto where = [](const Rule& rule) { return rule.is_timing() ? "swing" : aliases(rule.at); };
  for (const Rule* rule : measure::catalogue()) {
    id_width = std::max(id_width, columns(rule->id));
    title_width = std::max(title_width, columns(rule->title));
    where_width = std::max(where_width, columns(where(*rule)));
  }
  std::string table;
  std::optional<measure::Region> region;
  for (const Rule* rule : measure::catalogue()) {
    if (region != rule->region) {
      if (region) table += "\n";
      table += fmt::format("{}\n", measure::name_of(rule->region));
      region = rule->region;
    }
    table += fmt::format("  {}  {}  {}  {}  {}\n", padded(rule->id, id_width),
                         padded(where(*rule), where_width), padded(rule->title, title_width),
                         padded(unit_symbol(*rule), 3), rule->sign);
  }
  return table;
}

std::string rule_page(const Rule& rule) {
  const Unit limit_unit =
      rule.dimension == Dimension::length ? *find_unit("m") : display_unit(rule.dimension);
  std::string page = fmt::format("{}: {}\n\n", rule.id, rule.title);
  page += line("region", measure::name_of(rule.region));
  page += line("unit", unit_symbol(rule));
  page += line("sign", rule.sign);
  page += line("where", where_text(rule));
  page += line("needs", needs_text(rule));
  if (!rule.address_needs.empty())
    page += line("compared", "with " + names(rule.address_needs) + " at address");
  page +=
      line("seen", fmt::format("when its standard uncertainty is at most {}{}",
                               number(shown(rule.seen_limit_si, limit_unit)), after_number(rule)));
  page += line("limit", rule.limit);
  page += line("source", rule.source);
  std::vector<std::string> categories;
  for (const auto& category : rule.categories) categories.emplace_back(category.name);
  page += line("in words", listed(categories, "or"));
  bool has_points = false;
  for (const auto& example : rule.examples) {
    page += line("example", example_text(rule, example));
    has_points = has_points || !example.points.empty();
  }
  if (has_points)
    page +=
        "\nPoints are in metres in the golfer frame: (toward the target, up, toward the ball).\n";
  return page;
}

}  // namespace rangecheck::report
