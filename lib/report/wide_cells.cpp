// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>

#include "report/cells.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

const CheckEntry* find(const Entry& entry, std::string_view id) {
  const auto found = std::ranges::find_if(
      entry.checks, [&](const CheckEntry& each) { return each.check.id == id; });
  return found == entry.checks.end() ? nullptr : &*found;
}

/// A column has one unit for all rows, whatever each profile was written in: a ratio is never in %.
const Unit& column_unit(Dimension dimension, std::string_view length_unit) {
  return display_unit(dimension, length_unit);
}

std::string work_on_ids(const Summary& summary) {
  std::string ids;
  for (const auto& check : summary.work_on) ids += (ids.empty() ? "" : " ") + check.id;
  return ids;
}

}  // namespace

Wide wide_head() {
  return {{{"submission", "", "", 22},
           {"student", "", "", 10},
           {"club", "", "", 14},
           {"swing", "", "", 8},
           {"grade_percent", "", "Weighted mean over what was seen; nothing without a grade.", 9},
           {"grade_u_percent", "", "Its standard uncertainty: ± is 1.96 of it.", 9},
           {"seen_share", "", "Share of the weight that could be judged, 0 to 1.", 9},
           {"work_on", "", "Ids of what to work on, the main item first.", 34}},
          {}};
}

Result<Wide> wide_layout(const Entries& all, std::string_view length_unit) {
  // A check has the dimension that it has in the first submission with it.
  std::map<measure::InOrder, Dimension> checks;
  std::map<std::string, const measure::InOrder*, std::less<>> known;
  const auto read = all([&](const Entry& entry) {
    for (const auto& each : entry.checks) {
      if (known.contains(each.check.id)) continue;
      const auto added =
          checks
              .emplace(measure::place_in_order(each.check.id, each.check.position), each.dimension)
              .first;
      known.emplace(each.check.id, &added->first);
    }
  });
  if (!read) return read.error();
  Wide wide = wide_head();
  for (const auto& [in_order, dimension] : checks) {
    const std::string& id = std::get<std::string>(in_order);
    const std::string unit(column_unit(dimension, length_unit).symbol);
    wide.checks.push_back(id);
    wide.columns.insert(
        wide.columns.end(),
        {{id, unit, "", 12}, {id + " u", unit, "", 9}, {id + " verdict", "", "", 12}});
  }
  return wide;
}

Cells wide_row(const Entry& entry, const Wide& layout, std::string_view length_unit) {
  const Summary& summary = entry.summary;
  Cells cells = {text_cell(summary.submission),
                 text_cell(summary.student),
                 text_cell(summary.club),
                 text_cell(summary.swing),
                 summary.percent ? number_cell(*summary.percent, 0) : Cell{},
                 summary.percent ? number_cell(summary.percent_uncertainty, 1) : Cell{},
                 number_cell(summary.seen_share, hundredths),
                 text_cell(work_on_ids(summary))};
  for (const auto& id : layout.checks) {
    const CheckEntry* check = find(entry, id);
    if (!check) {
      cells.insert(cells.end(), 3, Cell{});
      continue;
    }
    const Unit& unit = column_unit(check->dimension, length_unit);
    const bool numeric = is_judged(check->verdict) && check->value_si;
    cells.push_back(numeric ? measured_cell(*check->value_si, unit) : text_cell(check->word));
    cells.push_back(numeric ? measured_cell(check->standard_uncertainty_si, unit) : Cell{});
    cells.push_back(text_cell(grade::name_of(check->verdict)));
  }
  return cells;
}

}  // namespace rangecheck::report
