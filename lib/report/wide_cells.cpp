// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <set>
#include <tuple>

#include "report/cells.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;

/// Ids of all checks: by position and in each in catalogue order, then the whole swing; what is no
/// rule of the catalogue comes after what is, by id.
std::vector<std::string> check_ids(std::span<const Graded> all) {
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

std::string work_on_ids(const grade::Grade& grade) {
  std::string ids;
  for (const std::size_t index : grade.work_on)
    ids += (ids.empty() ? "" : " ") + grade.results[index].check.id;
  return ids;
}

/// The first of `all` that has the check `id`; there is one.
const grade::Check& example_of(std::span<const Graded> all, std::string_view id) {
  const CheckResult* any = nullptr;
  for (const auto& graded : all)
    if (!any) any = find(graded, id);
  return any->check;
}

}  // namespace

Wide wide_layout(std::span<const Graded> all, std::string_view length_unit) {
  Wide wide{{{"submission", "", "", 22},
             {"student", "", "", 10},
             {"club", "", "", 14},
             {"swing", "", "", 8},
             {"grade_percent", "", "Weighted mean over what was seen; nothing without a grade.", 9},
             {"grade_u_percent", "", "Its standard uncertainty: ± is 1.96 of it.", 9},
             {"seen_share", "", "Share of the weight that could be judged, 0 to 1.", 9},
             {"work_on", "", "Ids of what to work on, the main item first.", 34}},
            check_ids(all)};
  for (const auto& id : wide.checks) {
    const std::string unit(column_unit(example_of(all, id), length_unit).symbol);
    wide.columns.insert(
        wide.columns.end(),
        {{id, unit, "", 12}, {id + " u", unit, "", 9}, {id + " verdict", "", "", 12}});
  }
  return wide;
}

Cells wide_row(const Graded& graded, const Wide& layout, std::string_view length_unit) {
  const auto& grade = graded.grade;
  Cells cells = {text_cell(graded.submission),
                 text_cell(graded.student),
                 text_cell(graded.club),
                 text_cell(graded.swing),
                 grade.percent ? number_cell(*grade.percent, 0) : Cell{},
                 grade.percent ? number_cell(grade.percent_uncertainty, 1) : Cell{},
                 number_cell(grade.seen_share, hundredths),
                 text_cell(work_on_ids(grade))};
  for (const auto& id : layout.checks) {
    const CheckResult* result = find(graded, id);
    if (!result) {
      cells.insert(cells.end(), 3, Cell{});
      continue;
    }
    const Unit& unit = column_unit(result->check, length_unit);
    const bool numeric = judged(*result) && result->value_si;
    cells.push_back(numeric ? measured_cell(*result->value_si, unit) : text_cell(result->word));
    cells.push_back(numeric ? measured_cell(result->standard_uncertainty_si, unit) : Cell{});
    cells.push_back(text_cell(grade::name_of(result->verdict)));
  }
  return cells;
}

}  // namespace rangecheck::report
