// SPDX-License-Identifier: MIT
#include "report/agreement.hpp"
#include "report/json_parts.hpp"

namespace rangecheck::report {
namespace {

using history::CheckComparison;
using history::Interval;

constexpr int agreement_version = 1;

Json ends(const Interval& interval, const Unit& unit) {
  return {number(interval.low, unit), number(interval.high, unit)};
}

Json differences_entry(const CheckComparison& check, const Unit& unit) {
  if (!check.differences) return nullptr;
  const auto& found = *check.differences;
  return {{"bias", number(found.bias, unit)},
          {"bias_95", ends(found.bias_95, unit)},
          {"sd", number(found.sd, unit)},
          {"limits", ends(found.limits, unit)},
          {"lower_limit_95", ends(found.lower_limit_95, unit)},
          {"upper_limit_95", ends(found.upper_limit_95, unit)}};
}

Json icc_entry(const std::optional<history::Icc>& icc) {
  if (!icc) return nullptr;
  Json interval = nullptr;
  if (icc->interval_95) interval = {icc->interval_95->low, icc->interval_95->high};
  return {{"form", "ICC(2,1)"}, {"value", icc->value}, {"interval_95", interval}};
}

Json trend_entry(const std::optional<history::Trend>& trend) {
  if (!trend) return nullptr;
  return {{"slope", number(trend->slope)}, {"p", number(trend->p)}};
}

Json verdicts_entry(const history::Verdicts& verdicts) {
  Json words = Json::array(), rows = Json::array();
  for (std::size_t i = 0; i < history::deciding_count; ++i) {
    words.push_back(grade::name_of(history::deciding_verdicts[i]));
    const auto* row = verdicts.both.data() + i * history::deciding_count;
    rows.push_back(std::vector<std::size_t>(row, row + history::deciding_count));
  }
  const auto kappa = history::cohen_kappa(verdicts.both, history::deciding_count);
  return {
      {"words", words},
      {"both", rows},
      {"same", verdicts.same()},
      {"total", verdicts.total()},
      {"kappa", number(kappa ? std::optional(kappa->value) : std::nullopt)},
      {"kappa_standard_error", number(kappa ? std::optional(kappa->standard_error) : std::nullopt)},
      {"first_only", verdicts.first_only},
      {"second_only", verdicts.second_only}};
}

Json honesty_entry(const history::Honesty& honesty) {
  return {{"stated", honesty.stated}, {"within", honesty.within}};
}

Json students_entry(const std::optional<std::size_t>& students) {
  return students ? Json(*students) : Json(nullptr);
}

Json check_entry(const CheckComparison& comparison) {
  const auto& check = comparison.check;
  const Unit unit = document_unit(check.dimension);
  const auto& sem = comparison.standard_error_of_measurement_si;
  return {{"check", check.id},
          {"title", check.title},
          {"position", check.position ? Json(id_of(*check.position)) : Json(nullptr)},
          {"unit", unit.symbol.empty() ? "1" : unit.symbol},
          {"pairs", comparison.pairs.size()},
          {"students", students_entry(comparison.students)},
          {"first_only", comparison.first_only},
          {"second_only", comparison.second_only},
          {"differences", differences_entry(comparison, unit)},
          {"icc", icc_entry(comparison.icc)},
          {"standard_error_of_measurement", number(sem, unit)},
          {"minimal_detectable_change",
           number(sem ? std::optional(history::least_detectable(*sem)) : std::nullopt, unit)},
          {"trend", trend_entry(comparison.trend)},
          {"stated_uncertainties", honesty_entry(comparison.honesty)},
          {"verdicts", verdicts_entry(comparison.verdicts)}};
}

}  // namespace

std::string agreement_json(const Compared& names, const history::Comparison& both,
                           std::optional<int> indent) {
  const Json document = {{"format", "rangecheck-agreement"},
                         {"version", agreement_version},
                         {"first", names.first},
                         {"second", names.second},
                         {"submissions",
                          {{"both", both.in_both},
                           {"students", students_entry(both.students)},
                           {"only_first", both.only_first},
                           {"only_second", both.only_second},
                           {"ambiguous_students", both.ambiguous}}},
                         {"grade", both.grade ? check_entry(*both.grade) : Json(nullptr)},
                         {"checks", list_of(both.checks, check_entry)},
                         {"stated_uncertainties", honesty_entry(both.honesty)},
                         {"verdicts", verdicts_entry(both.verdicts)}};
  return written(document, indent);
}

}  // namespace rangecheck::report
