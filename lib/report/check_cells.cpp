// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "report/cells.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

/// A limit of a band as its profile's author wrote it, or nothing.
Cell limit_cell(std::optional<double> si, const Unit& unit) {
  return si ? number_cell(shown(*si, unit)) : Cell{};
}

/// "1" for what to work on first, and so on; nothing for the rest.
Cell rank_cell(const Summary& summary, const std::string& id) {
  const auto rank = std::ranges::find(summary.work_on, id, &NamedCheck::id);
  if (rank == summary.work_on.end()) return {};
  return number_cell(static_cast<double>(rank - summary.work_on.begin() + 1));
}

Cells check_row(const Summary& summary, const CheckEntry& entry, std::string_view length_unit) {
  const NamedCheck& check = entry.check;
  const Unit& unit = shown_unit(entry.dimension, entry.unit, length_unit);
  const bool has_value = is_judged(entry.verdict) && entry.value_si;
  const double value_si = entry.value_si.value_or(0);
  const double half_width_si = coverage_factor_95 * entry.standard_uncertainty_si;
  const auto measured = [&](double si) { return has_value ? measured_cell(si, unit) : Cell{}; };
  return {text_cell(summary.submission),
          text_cell(summary.student),
          text_cell(summary.club),
          text_cell(summary.swing),
          text_cell(summary.profile),
          text_cell(check.position ? id_of(*check.position) : ""),
          text_cell(entry.region),
          text_cell(check.id),
          text_cell(check.title),
          text_cell(unit.symbol),
          measured(value_si),
          measured(entry.standard_uncertainty_si),
          measured(value_si - half_width_si),
          measured(value_si + half_width_si),
          text_cell(entry.word),
          limit_cell(entry.band.lower_si, unit),
          limit_cell(entry.band.upper_si, unit),
          text_cell(listed(entry.accept, "or")),
          text_cell(grade::name_of(entry.verdict)),
          has_value ? number_cell(entry.probability_inside, hundredths) : Cell{},
          is_judged(entry.verdict) ? number_cell(entry.score, hundredths) : Cell{},
          number_cell(entry.weight),
          rank_cell(summary, check.id),
          text_cell(entry.reason),
          text_cell(entry.remedy)};
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

std::vector<Cells> check_rows(const Entry& entry, std::string_view length_unit) {
  std::vector<Cells> rows;
  for (const auto& check : entry.checks)
    rows.push_back(check_row(entry.summary, check, length_unit));
  return rows;
}

}  // namespace rangecheck::report
