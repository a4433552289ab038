// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <set>
#include <tuple>

#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using Cells = std::vector<std::string>;

std::string row(const Cells& cells) {
  std::string line;
  for (const auto& cell : cells) {
    if (&cell != &cells.front()) line += ',';
    line += csv_cell(cell);
  }
  return line + "\r\n";
}

/// Six significant digits: more than any film carries, and the same text on every machine.
std::string plain(double value) { return std::isfinite(value) ? fmt::format("{:.6g}", value) : ""; }

std::string plain(std::optional<double> si, const Unit& unit) {
  return si ? plain(shown(*si, unit)) : "";
}

bool is_plain_number(std::string_view text) {
  double value = 0;
  const char* begin = text.data() + (text.front() == '+' ? 1 : 0);
  const char* end = text.data() + text.size();
  const auto [stopped, error] = std::from_chars(begin, end, value);
  return error == std::errc() && stopped == end && std::isfinite(value);
}

/// Ids of all checks: by position and in each in catalogue order, then the whole swing; what is no
/// rule of the catalogue comes after what is, by id.
std::vector<std::string> check_columns(std::span<const Graded> all) {
  const auto rules = measure::catalogue();
  const auto place_in_order = [&](const grade::Check& check) {
    const auto place = std::find(all_places.begin(), all_places.end(), Place(check.position));
    const auto rule = std::find_if(rules.begin(), rules.end(),
                                   [&](const auto* one) { return one->id == check.rule; });
    return std::tuple(place - all_places.begin(), rule - rules.begin(), check.id);
  };
  std::set<std::tuple<std::ptrdiff_t, std::ptrdiff_t, std::string>> in_order;
  for (const auto& graded : all)
    for (const auto& result : graded.grade.results) in_order.insert(place_in_order(result.check));
  std::vector<std::string> ids;
  for (const auto& [place, rule, id] : in_order) ids.push_back(id);
  return ids;
}

const CheckResult* find(const Graded& graded, std::string_view id) {
  const auto& results = graded.grade.results;
  const auto found = std::find_if(results.begin(), results.end(),
                                  [&](const auto& result) { return result.check.id == id; });
  return found == results.end() ? nullptr : &*found;
}

/// A column has one unit for all rows, whatever each profile was written in: a ratio is never in %.
const Unit& column_unit(const grade::Check& check, std::string_view length_unit) {
  return display_unit(check.dimension, length_unit);
}

Cells wide_header(std::span<const Graded> all, const std::vector<std::string>& ids,
                  std::string_view length_unit) {
  Cells header = {"submission",    "student",         "club",       "swing",
                  "grade_percent", "grade_u_percent", "seen_share", "work_on"};
  for (const auto& id : ids) {
    const CheckResult* any = nullptr;
    for (const auto& graded : all)
      if (!any) any = find(graded, id);
    const auto symbol = column_unit(any->check, length_unit).symbol;
    const std::string unit = symbol.empty() ? "" : fmt::format(" [{}]", symbol);
    header.insert(header.end(), {id + unit, id + " u" + unit, id + " verdict"});
  }
  return header;
}

std::string work_on_ids(const grade::Grade& grade) {
  std::string ids;
  for (const std::size_t index : grade.work_on)
    ids += (ids.empty() ? "" : " ") + grade.results[index].check.id;
  return ids;
}

}  // namespace

std::string csv_cell(std::string_view text) {
  std::string safe(text);
  // A spreadsheet runs cells that begin like this; a leading ' makes it show them instead.
  constexpr std::string_view starts_formula = "=+-@\t\r";
  if (!safe.empty() && starts_formula.find(safe.front()) != std::string_view::npos &&
      !is_plain_number(safe))
    safe.insert(safe.begin(), '\'');
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char c : safe) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string csv_long_header() {
  return row({"submission", "student",  "club",      "swing",  "profile", "position", "region",
              "check",      "title",    "unit",      "value",  "u",       "low_95",   "high_95",
              "word",       "band_low", "band_high", "accept", "verdict", "p_inside", "score",
              "weight",     "work_on",  "reason",    "remedy"});
}

std::string csv_long_rows(const Graded& graded, std::string_view length_unit) {
  std::string rows;
  const auto& work_on = graded.grade.work_on;
  for (std::size_t i = 0; i < graded.grade.results.size(); ++i) {
    const CheckResult& result = graded.grade.results[i];
    const grade::Check& check = result.check;
    const Unit& unit = shown_unit(check, length_unit);
    const bool was_judged = judged(result);
    const auto value = was_judged ? result.value_si : std::nullopt;
    const double half_width_si = coverage_factor_95 * result.standard_uncertainty_si;
    const auto rank = std::find(work_on.begin(), work_on.end(), i);
    rows += row({graded.submission,
                 graded.student,
                 graded.club,
                 graded.swing,
                 graded.grade.profile_id,
                 check.position ? std::string(id_of(*check.position)) : "",
                 std::string(region_of(graded, check)),
                 check.id,
                 check.title,
                 std::string(unit.symbol),
                 plain(value, unit),
                 value ? plain(result.standard_uncertainty_si, unit) : "",
                 value ? plain(*value - half_width_si, unit) : "",
                 value ? plain(*value + half_width_si, unit) : "",
                 result.word,
                 plain(check.band.lower_si, unit),
                 plain(check.band.upper_si, unit),
                 listed(check.accept, "or"),
                 std::string(grade::name_of(result.verdict)),
                 value ? plain(result.probability.inside) : "",
                 was_judged ? plain(result.score.expected) : "",
                 plain(check.weight),
                 rank == work_on.end() ? "" : std::to_string(rank - work_on.begin() + 1),
                 result.reason,
                 result.remedy});
  }
  return rows;
}

std::string csv_wide(std::span<const Graded> all, std::string_view length_unit) {
  const auto ids = check_columns(all);
  std::string table = row(wide_header(all, ids, length_unit));
  for (const auto& graded : all) {
    const auto& grade = graded.grade;
    Cells cells = {graded.submission,
                   graded.student,
                   graded.club,
                   graded.swing,
                   grade.percent ? plain(*grade.percent) : "",
                   grade.percent ? plain(grade.percent_uncertainty) : "",
                   plain(grade.seen_share),
                   work_on_ids(grade)};
    for (const auto& id : ids) {
      const CheckResult* result = find(graded, id);
      if (!result) {
        cells.insert(cells.end(), 3, "");
        continue;
      }
      const bool numeric = judged(*result) && result->value_si;
      const Unit& unit = column_unit(result->check, length_unit);
      cells.push_back(numeric ? plain(*result->value_si, unit) : result->word);
      cells.push_back(numeric ? plain(result->standard_uncertainty_si, unit) : "");
      cells.emplace_back(grade::name_of(result->verdict));
    }
    table += row(cells);
  }
  return table;
}

}  // namespace rangecheck::report
