// SPDX-License-Identifier: MIT
#include "report/agreement.hpp"
#include "report/cells.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

using history::CheckComparison;
using history::Interval;

Cell count(std::size_t number) { return number_cell(static_cast<double>(number)); }
Cell measured(double si, const Unit& unit) { return number_cell(shown(si, unit)); }

void append(Cells& cells, Cells more) {
  for (auto& cell : more) cells.push_back(std::move(cell));
}

Cells none(std::size_t cells) { return Cells(cells); }

Cells ends(const Interval& interval, const Unit& unit) {
  return {measured(interval.low, unit), measured(interval.high, unit)};
}

void add_differences(Cells& cells, const CheckComparison& check, const Unit& unit) {
  if (!check.differences) return append(cells, none(10));
  const auto& found = *check.differences;
  append(cells, {measured(found.bias, unit)});
  append(cells, ends(found.bias_95, unit));
  append(cells, {measured(found.sd, unit), measured(found.limits.low, unit)});
  append(cells, ends(found.lower_limit_95, unit));
  append(cells, {measured(found.limits.high, unit)});
  append(cells, ends(found.upper_limit_95, unit));
}

void add_reliability(Cells& cells, const CheckComparison& check, const Unit& unit) {
  append(cells, {check.icc ? number_cell(check.icc->value) : Cell{}});
  const auto interval = check.icc ? check.icc->interval_95 : std::nullopt;
  append(cells,
         interval ? Cells{number_cell(interval->low), number_cell(interval->high)} : none(2));
  const auto& sem = check.standard_error_of_measurement_si;
  append(cells, sem ? Cells{measured(*sem, unit), measured(history::least_detectable(*sem), unit)}
                    : none(2));
  append(cells, check.trend ? Cells{number_cell(check.trend->slope), number_cell(check.trend->p)}
                            : none(2));
}

void add_verdicts(Cells& cells, const CheckComparison& check) {
  append(cells, {count(check.honesty.stated), count(check.honesty.within),
                 count(check.verdicts.total()), count(check.verdicts.same())});
  const auto kappa = history::cohen_kappa(check.verdicts.both, history::deciding_count);
  append(cells,
         kappa ? Cells{number_cell(kappa->value), number_cell(kappa->standard_error)} : none(2));
}

std::string row(const CheckComparison& comparison, std::string_view length_unit) {
  const auto& check = comparison.check;
  const Unit& unit = shown_unit(check.dimension, check.unit, length_unit);
  Cells cells = {text_cell(check.id),
                 text_cell(check.title),
                 text_cell(check.position ? id_of(*check.position) : ""),
                 text_cell(unit.symbol),
                 count(comparison.pairs.size()),
                 comparison.students ? count(*comparison.students) : Cell{},
                 count(comparison.first_only),
                 count(comparison.second_only)};
  add_differences(cells, comparison, unit);
  add_reliability(cells, comparison, unit);
  add_verdicts(cells, comparison);
  return csv_line(cells);
}

}  // namespace

std::string agreement_csv(const history::Comparison& both, std::string_view length_unit) {
  Cells names;
  for (const auto* name : {"check",
                           "title",
                           "position",
                           "unit",
                           "pairs",
                           "students",
                           "first_only",
                           "second_only",
                           "bias",
                           "bias_low_95",
                           "bias_high_95",
                           "sd",
                           "limit_low",
                           "limit_low_low_95",
                           "limit_low_high_95",
                           "limit_high",
                           "limit_high_low_95",
                           "limit_high_high_95",
                           "icc",
                           "icc_low_95",
                           "icc_high_95",
                           "sem",
                           "mdc",
                           "slope",
                           "slope_p",
                           "stated_u",
                           "within_u",
                           "verdicts",
                           "same_verdict",
                           "kappa",
                           "kappa_u"})
    names.push_back(text_cell(name));
  std::string text = csv_line(names);
  if (both.grade) text += row(*both.grade, length_unit);
  for (const auto& check : both.checks) text += row(check, length_unit);
  return text;
}

}  // namespace rangecheck::report
