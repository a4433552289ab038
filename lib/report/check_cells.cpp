// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "report/cells.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;

/// A limit of a band as its profile's author wrote it, or nothing.
Cell limit_cell(std::optional<double> si, const Unit& unit) {
  return si ? number_cell(shown(*si, unit)) : Cell{};
}

/// "1" for what to work on first, and so on; nothing for the rest.
Cell rank_cell(const grade::Grade& grade, std::size_t result) {
  const auto rank = std::find(grade.work_on.begin(), grade.work_on.end(), result);
  if (rank == grade.work_on.end()) return {};
  return number_cell(static_cast<double>(rank - grade.work_on.begin() + 1));
}

Cells check_row(const Graded& graded, std::size_t index, std::string_view length_unit) {
  const CheckResult& result = graded.grade.results[index];
  const grade::Check& check = result.check;
  const Unit& unit = shown_unit(check, length_unit);
  const bool has_value = judged(result) && result.value_si;
  const double value_si = result.value_si.value_or(0);
  const double half_width_si = coverage_factor_95 * result.standard_uncertainty_si;
  const auto measured = [&](double si) { return has_value ? measured_cell(si, unit) : Cell{}; };
  return {text_cell(graded.submission),
          text_cell(graded.student),
          text_cell(graded.club),
          text_cell(graded.swing),
          text_cell(graded.grade.profile_id),
          text_cell(check.position ? id_of(*check.position) : ""),
          text_cell(region_of(graded, check)),
          text_cell(check.id),
          text_cell(check.title),
          text_cell(unit.symbol),
          measured(value_si),
          measured(result.standard_uncertainty_si),
          measured(value_si - half_width_si),
          measured(value_si + half_width_si),
          text_cell(result.word),
          limit_cell(check.band.lower_si, unit),
          limit_cell(check.band.upper_si, unit),
          text_cell(listed(check.accept, "or")),
          text_cell(grade::name_of(result.verdict)),
          has_value ? number_cell(result.probability.inside, hundredths) : Cell{},
          judged(result) ? number_cell(result.score.expected, hundredths) : Cell{},
          number_cell(check.weight),
          rank_cell(graded.grade, index),
          text_cell(in_english(result.reason)),
          text_cell(in_english(result.remedy))};
}

}  // namespace

Cell text_cell(std::string_view raw) { return raw.empty() ? Cell{} : Cell{printable(raw)}; }

Cell number_cell(double value, std::optional<int> decimals) {
  if (!std::isfinite(value)) return {};
  return Number{*parse_number(fmt::format("{:.6g}", value)), decimals};
}

Cell measured_cell(double si, const Unit& unit) {
  return number_cell(shown(si, unit), decimals(unit) + 1);
}

std::string titled(const Column& column) {
  const std::string name = printable(column.name);
  return column.unit.empty() ? name : fmt::format("{} [{}]", name, column.unit);
}

std::vector<Column> check_columns() {
  return {
      {"submission", "", "Id of the submission: its folder or the common part of its files.", 22},
      {"student", "", "Id of the student.", 10},
      {"club", "", "As the submission says.", 14},
      {"swing", "", "Kind of swing: full, pitch and so on.", 8},
      {"profile", "", "What the submission was held against.", 24},
      {"position", "", "Where in the swing; nothing for the swing as a whole.", 24},
      {"region", "", "Part of the body.", 12},
      {"check", "", "Id of the check: position/measure after address.", 42},
      {"title", "", "The check in words.", 40},
      {"unit", "", "Of value, u, low_95, high_95, band_low and band_high in this row.", 6},
      {"value", "unit", "What was measured.", 9},
      {"u", "unit", "Standard uncertainty of the value.", 8},
      {"low_95", "unit", "Lower end of the 95 % interval: value - 1.96 u.", 9},
      {"high_95", "unit", "Upper end of the 95 % interval: value + 1.96 u.", 9},
      {"word", "", "What a person saw, for checks that are words.", 12},
      {"band_low", "unit", "Lower limit of what is wanted; nothing where there is none.", 9},
      {"band_high", "unit", "Upper limit of what is wanted; nothing where there is none.", 9},
      {"accept", "", "Words that are wanted, for checks that are words.", 16},
      {"verdict", "", "Which side of the band the true value lies on, as far as is known.", 12},
      {"p_inside", "0 to 1", "Probability that the true value lies in the band.", 9},
      {"score", "0 to 1", "Expected score of this check.", 8},
      {"weight", "", "How much the check counts in the grade.", 8},
      {"work_on", "", "1 is what to work on first; at most three.", 9},
      {"reason", "", "Why it was not seen, or is switched off.", 40},
      {"remedy", "", "How to film it so that it is seen.", 50},
  };
}

std::vector<Cells> check_rows(const Graded& graded, std::string_view length_unit) {
  std::vector<Cells> rows;
  for (std::size_t i = 0; i < graded.grade.results.size(); ++i)
    rows.push_back(check_row(graded, i, length_unit));
  return rows;
}

}  // namespace rangecheck::report
