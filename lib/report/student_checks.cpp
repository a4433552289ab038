// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Subject;
using grade::Verdict;
using Results = std::vector<const CheckResult*>;

std::string_view in_words(Verdict verdict, Dimension dimension) {
  const bool time = dimension == Dimension::time;
  switch (verdict) {
    case Verdict::inside:
      return "good";
    case Verdict::low:
      return time ? "too short" : "too low";
    case Verdict::high:
      return time ? "too long" : "too high";
    case Verdict::outside_words:
      return "differs";
    case Verdict::unsure:
      return "can't tell";
    case Verdict::not_seen:
      return "not seen";
    case Verdict::switched_off:
      return "left out";
  }
  return "";
}

Results results_at(const grade::Grade& grade, Place place) {
  Results found;
  for (const auto& result : grade.results)
    if (result.check.position == place) found.push_back(&result);
  return found;
}

const grade::PositionNotFound* not_found(const grade::Grade& grade, Place place) {
  const auto found = std::find_if(grade.not_found.begin(), grade.not_found.end(),
                                  [&](const auto& one) { return one.position == place; });
  return found == grade.not_found.end() ? nullptr : &*found;
}

/// What stands in the name's column for checks of no position: times, or what was read and seen.
std::string_view name_of_rest(const Results& results) {
  const auto is_time = [](const CheckResult* one) {
    return one->check.subject == Subject::measured;
  };
  if (std::all_of(results.begin(), results.end(), is_time)) return "Timing";
  if (std::none_of(results.begin(), results.end(), is_time)) return "Club and what was seen";
  return "Timing and the rest";
}

std::string grade_cell(const grade::Grade& grade, Place place) {
  if (not_found(grade, place)) return "not found";
  const auto found = std::find_if(grade.positions.begin(), grade.positions.end(),
                                  [&](const auto& one) { return one.position == place; });
  if (found == grade.positions.end() || !found->percent) return "-";
  return fmt::format("{:.0f} ± {:.0f} %", *found->percent,
                     coverage_factor_95 * found->percent_uncertainty);
}

/// A column of the overview: how many checks got this verdict. Its head takes two lines.
struct Column {
  std::string_view over, under;
  Verdict verdict;
};
constexpr Column columns_of_counts[] = {
    {"", "good", Verdict::inside},      {"too", "low", Verdict::low},
    {"too", "high", Verdict::high},     {"words", "differ", Verdict::outside_words},
    {"can't", "tell", Verdict::unsure}, {"not", "seen", Verdict::not_seen}};

std::size_t count_with(const Results& results, Verdict verdict) {
  return static_cast<std::size_t>(
      std::count_if(results.begin(), results.end(),
                    [&](const CheckResult* one) { return one->verdict == verdict; }));
}

/// The columns with anything in them.
std::vector<Column> used_columns(const grade::Grade& grade) {
  std::vector<Column> used;
  for (const Column& column : columns_of_counts)
    if (!results_with(grade, column.verdict).empty()) used.push_back(column);
  return used;
}

std::string overview_row(std::string_view alias, std::string_view name, std::string_view grade,
                         const std::vector<std::string>& counts, const std::vector<Column>& heads) {
  constexpr std::size_t alias_width = 4, name_width = 28, grade_width = 10;
  std::string row = padded(alias, alias_width) + padded(name, name_width);
  row += padded(grade, grade_width);
  for (std::size_t i = 0; i < counts.size(); ++i)
    row += fmt::format("  {:>{}}", counts[i],
                       std::max(columns(heads[i].over), columns(heads[i].under)));
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

/// A title, what was measured, what is wanted and the verdict, in columns.
std::string table_row(std::string_view title, std::string_view measured, std::string_view wanted,
                      std::string_view verdict) {
  constexpr std::size_t title_width = 35;
  constexpr std::size_t cell_width = 16;
  std::string row;
  // A long text keeps the columns after it in line by taking a line of its own.
  const auto cell = [&row](std::string_view text, std::size_t start, std::size_t width) {
    const std::size_t line_start = row.rfind('\n') + 1;  // npos + 1 is 0: the first line
    const std::size_t used = columns(std::string_view(row).substr(line_start));
    if (used > start) row += "\n";
    row += std::string(used > start ? start : start - used, ' ');
    row += columns(text) + 1 > width ? std::string(text) : padded(text, width);
  };
  cell(title, 2, title_width);
  cell(measured, 2 + title_width, cell_width);
  cell(wanted, 2 + title_width + cell_width, cell_width);
  cell(verdict, 2 + title_width + 2 * cell_width, 0);
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

std::string result_rows(const CheckResult& result, std::string_view length_unit) {
  const Unit& unit = shown_unit(result.check, length_unit);
  std::string rows = table_row(
      printable(result.check.title), printable(measured_text(result, unit)),
      printable(band_text(result.check, unit)), in_words(result.verdict, result.check.dimension));
  for (const auto* remark : {&result.category, &result.note})
    if (!remark->empty()) rows += paragraph(fmt::format("({})", *remark), "    ");
  return rows;
}

/// Every judged check, under the name of its region.
std::string rows_by_region(const Graded& graded, std::string_view length_unit) {
  std::string rows;
  std::string_view region;
  for (const auto& result : graded.grade.results) {
    if (!judged(result)) continue;
    if (region != region_of(graded, result.check)) {
      region = region_of(graded, result.check);
      rows += fmt::format("{}\n", region);
    }
    rows += result_rows(result, length_unit);
  }
  return rows;
}

/// What is outside as rows, the rest by name: a page of every number of a swing nobody reads.
std::string short_rows(std::string_view name, const Results& results,
                       std::string_view length_unit) {
  std::string rows;
  std::vector<std::string> good, unsure;
  for (const CheckResult* result : results) {
    if (outside(*result)) rows += result_rows(*result, length_unit);
    if (result->verdict == Verdict::inside) good.push_back(lower(result->check.title));
    if (result->verdict == Verdict::unsure) unsure.push_back(lower(result->check.title));
  }
  if (!good.empty()) rows += paragraph(listed(good), "  good: ");
  if (!unsure.empty()) rows += paragraph(listed(unsure), "  can't tell: ");
  return rows.empty() ? "" : fmt::format("{}\n{}", name, rows);
}

std::string rows_by_position(const grade::Grade& grade, std::string_view length_unit) {
  std::string rows;
  for (const Position position : all_positions)
    rows += short_rows(fmt::format("{} ({})", title_of(position), alias_of(position)),
                       results_at(grade, position), length_unit);
  Results rest = results_at(grade, std::nullopt);
  const auto seen_by_people = std::stable_partition(
      rest.begin(), rest.end(),
      [](const CheckResult* one) { return one->check.subject == Subject::measured; });
  const Results times(rest.begin(), seen_by_people);
  const Results others(seen_by_people, rest.end());
  return rows + short_rows(name_of_rest(times), times, length_unit) +
         short_rows(name_of_rest(others), others, length_unit);
}

constexpr std::string_view about_intervals =
    "The true value is within the ± of what is shown 95 times in 100. \"can't tell\" means that "
    "the films leave too much doubt about the side of the edge you are on.";

}  // namespace

std::string overview_block(const Graded& graded) {
  if (!shows_swing(graded)) return "";
  const auto heads = used_columns(graded.grade);
  std::vector<std::string> over, under;
  for (const Column& head : heads) {
    over.emplace_back(head.over);
    under.emplace_back(head.under);
  }
  std::string text = heading("The swing at a glance");
  text += overview_row("", "", "", over, heads) + overview_row("", "", "grade", under, heads);
  for (const Place place : all_places) {
    const Results results = results_at(graded.grade, place);
    if (results.empty()) continue;
    std::vector<std::string> counts;
    // A person may have written a number for a position that no film shows.
    const bool any = std::any_of(results.begin(), results.end(),
                                 [](const CheckResult* one) { return judged(*one); });
    if (any || !not_found(graded.grade, place))
      for (const Column& head : heads)
        counts.push_back(std::to_string(count_with(results, head.verdict)));
    text += overview_row(place ? alias_of(*place) : "",
                         place ? title_of(*place) : name_of_rest(results),
                         grade_cell(graded.grade, place), counts, heads);
  }
  return text;
}

std::string checks_block(const Graded& graded, std::string_view length_unit) {
  const bool swing = shows_swing(graded);
  const std::string text =
      heading(swing ? "Position by position, from the ground up" : "From the ground up");
  const std::string rows =
      swing ? rows_by_position(graded.grade, length_unit) : rows_by_region(graded, length_unit);
  if (rows.empty()) return text + "None of the checks could be judged from these films.\n";
  std::string about(about_intervals);
  if (swing) about += " The numbers behind what is only named here are with your coach.";
  return text + table_row("", "you", "wanted", "") + rows + paragraph(about);
}

}  // namespace rangecheck::report
