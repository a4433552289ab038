// SPDX-License-Identifier: MIT
// The student's page in plain text: where what it says stands in its lines.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Subject;
using grade::Verdict;

constexpr std::size_t page_width = 80;

/// A line and its underline, after an empty one.
std::string heading(std::string_view title) {
  return fmt::format("\n{}\n{}\n", title, std::string(columns(title), '-'));
}

std::string bullets(const std::vector<std::string>& lines) {
  std::string text;
  for (const auto& line : lines) text += paragraph(line, "  * ");
  return text;
}

std::string title_block(const Page& page) {
  std::string text = paragraph(title_line(page)) + std::string(page_width, '=') + "\n";
  text += paragraph(held_against(page));
  if (const auto only = address_only(page); !only.empty()) text += paragraph(only);
  return text;
}

std::string grade_block(const Page& page) {
  return heading(page.words.say("grade.heading")) + paragraph(grade_sentence(page));
}

std::string since_block(const Page& page) {
  const auto [lead, changes, more] = since_last(page);
  if (lead.empty()) return "";
  return heading(page.words.say("since.heading")) + paragraph(lead) + bullets(changes) +
         (more.empty() ? "" : paragraph(more));
}

std::string work_text(const Page& page, const CheckResult& result) {
  const WorkItem item = work_item(page, result);
  struct Part {
    std::string label;
    const std::string& text;
  };
  const std::array<Part, 4> parts{{{page.words.say("work.why"), item.why.text},
                                   {page.words.say("work.aim"), item.aim.text},
                                   {page.words.say("work.drill"), item.drill.text},
                                   {page.words.say("work.careful"), item.careful.text}}};
  std::size_t width = 0;
  for (const auto& part : parts) width = std::max(width, columns(part.label) + 2);
  std::string text = paragraph(
      page.words.say("work.item", {{"what", item.heading}, {"wanted", item.wanted}}), "  ");
  if (!item.sign.empty()) text += paragraph(fmt::format("({})", item.sign), "    ");
  for (const auto& part : parts) {
    if (!part.text.empty()) text += paragraph(part.text, "    " + padded(part.label, width));
    if (&part == &parts.front() && !item.follows.empty())
      text += paragraph(item.follows, std::string(4 + width, ' '));
  }
  return text;
}

std::string work_block(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  std::string text = heading(page.words.say("work.heading"));
  // Too little for a grade is too little for advice: the one thing to do is to film again.
  if (!grade.percent) return text + paragraph(film_again(page));
  if (grade.work_on.empty()) return text + paragraph(say_of_subject(page, "work.nothing"));
  for (std::size_t i = 0; i < grade.work_on.size(); ++i) {
    if (i == 1) text += "\n" + paragraph(page.words.say("work.then"));
    text += '\n';
    text += work_text(page, grade.results[grade.work_on[i]]);
  }
  return text;
}

struct OverviewRow {
  std::string alias, name, grade;
  std::vector<std::string> counts;
};

std::string overview_line(const OverviewRow& row, std::size_t name_width,
                          const std::vector<std::size_t>& widths) {
  constexpr std::size_t alias_width = 4, grade_width = 10;
  std::string line = padded(row.alias, alias_width) + padded(row.name, name_width) +
                     padded(row.grade, grade_width);
  for (std::size_t i = 0; i < row.counts.size(); ++i) {
    const std::size_t used = columns(row.counts[i]);
    line += std::string(2 + (widths[i] > used ? widths[i] - used : 0), ' ') + row.counts[i];
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

OverviewRow overview_row(const Page& page, Place place, const std::vector<VerdictColumn>& heads) {
  const Results results = results_at(page.graded.grade, place);
  OverviewRow row{.alias = place ? std::string(alias_of(*place)) : "",
                  .name = place ? title_of(page.words, *place) : name_of_rest(page, results),
                  .grade = grade_text(page, place),
                  .counts = {}};
  // A person may have written a number for a position that no film shows.
  const bool any =
      std::ranges::any_of(results, [](const CheckResult* one) { return judged(*one); });
  if (any || !not_found(page.graded.grade, place))
    for (const VerdictColumn& head : heads)
      row.counts.push_back(std::to_string(count_with(results, head.verdict)));
  return row;
}

/// Grade and counts of verdicts of every position; nothing when the films show address only.
std::string overview_block(const Page& page) {
  if (!shows_swing(page.graded)) return "";
  const auto heads = used_columns(page);
  OverviewRow over,
      under{.alias = "", .name = "", .grade = page.words.say("glance.grade"), .counts = {}};
  std::vector<std::size_t> widths;
  for (const VerdictColumn& column : heads) {
    const std::size_t cut = column.head.find(' ');
    over.counts.push_back(cut == std::string::npos ? "" : column.head.substr(0, cut));
    under.counts.push_back(cut == std::string::npos ? column.head : column.head.substr(cut + 1));
    widths.push_back(std::max(columns(over.counts.back()), columns(under.counts.back())));
  }
  std::vector<OverviewRow> rows{std::move(over), std::move(under)};
  for (const Place place : all_places)
    if (!results_at(page.graded.grade, place).empty())
      rows.push_back(overview_row(page, place, heads));
  std::size_t name_width = 0;
  for (const Position position : all_positions)
    name_width = std::max(name_width, columns(title_of(page.words, position)) + 2);
  for (const auto& row : rows) name_width = std::max(name_width, columns(row.name) + 2);
  std::string text = heading(page.words.say("glance.heading"));
  for (const auto& row : rows) text += overview_line(row, name_width, widths);
  return text;
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
    const bool full = used > start || (used > 0 && used == start && row.back() != ' ');
    if (full) row += "\n";
    if (start + columns(text) > page_width) {
      const std::string lines = paragraph(text, std::string(start, ' '));
      row += lines.substr(full ? 0 : used, lines.size() - 1 - (full ? 0 : used));
      return;
    }
    row += std::string(full ? start : start - used, ' ');
    row += columns(text) + 1 > width ? std::string(text) : padded(text, width);
  };
  cell(title, 2, title_width);
  cell(measured, 2 + title_width, cell_width);
  cell(wanted, 2 + title_width + cell_width, cell_width);
  cell(verdict, 2 + title_width + 2 * cell_width, 0);
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

std::string result_rows(const Page& page, const CheckResult& result) {
  std::string rows =
      table_row(printable(title_of(page, result.check)), printable(measured_text(page, result)),
                printable(wanted_text(page, result.check)), verdict_text(page, result));
  for (const auto& remark : remarks(page, result))
    rows += paragraph(fmt::format("({})", remark), "    ");
  return rows;
}

/// Address alone: every judged check, under the name of its region.
std::string rows_by_region(const Page& page) {
  std::string rows, region;
  for (const auto& result : page.graded.grade.results) {
    if (!judged(result)) continue;
    if (region != region_title(page, result.check)) {
      region = region_title(page, result.check);
      rows += fmt::format("{}\n", region);
    }
    rows += result_rows(page, result);
  }
  return rows;
}

/// What is outside as rows, the rest by name: a page of every number of a swing nobody reads.
std::string short_rows(const Page& page, std::string_view name, const Results& results) {
  std::string rows;
  std::vector<std::string> good, unsure;
  for (const CheckResult* result : results) {
    const std::string title = in_sentence(page.words, title_of(page, result->check));
    if (outside(*result)) rows += result_rows(page, *result);
    if (result->verdict == Verdict::inside) good.push_back(title);
    if (result->verdict == Verdict::unsure) unsure.push_back(title);
  }
  const auto line = [&](const std::vector<std::string>& titles, std::string_view label) {
    if (!titles.empty())
      rows += paragraph(listed(page.words, titles), fmt::format("  {} ", page.words.say(label)));
  };
  line(good, "checks.good");
  line(unsure, "checks.cant-tell");
  return rows.empty() ? "" : fmt::format("{}\n{}", name, rows);
}

std::string rows_by_position(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  std::string rows;
  for (const Position position : all_positions)
    rows +=
        short_rows(page,
                   page.words.say("checks.position", {{"title", title_of(page.words, position)},
                                                      {"alias", std::string(alias_of(position))}}),
                   results_at(grade, position));
  for (const auto& rest : rest_of(grade)) rows += short_rows(page, name_of_rest(page, rest), rest);
  return rows;
}

/// Address alone: every check that could be judged, region by region. A swing: position by
/// position what is outside, and in a line each what is good and what can't be told.
std::string checks_block(const Page& page) {
  const bool swing = shows_swing(page.graded);
  const std::string text = heading(say_of_subject(page, "checks.heading"));
  const std::string rows = swing ? rows_by_position(page) : rows_by_region(page);
  if (rows.empty()) return text + paragraph(page.words.say("checks.none"));
  std::string about = page.words.say("checks.about-intervals");
  if (swing) about += " " + page.words.say("checks.numbers-elsewhere");
  return text + table_row("", page.words.say("checks.you"), page.words.say("checks.wanted"), "") +
         rows + paragraph(about);
}

std::string not_shown_block(const Page& page) {
  const auto groups = not_shown(page);
  if (groups.empty()) return "";
  std::string text = heading(page.words.say("unseen.heading"));
  for (const auto& group : groups) {
    for (const auto& one : group.hidden)
      text += paragraph(
          page.words.say("unseen.line", {{"reason", one.reason}, {"names", one.names}}), "  * ");
    if (!group.remedy.empty())
      text += paragraph(group.remedy, fmt::format("    {} ", page.words.say("unseen.to-see")));
  }
  return text;
}

std::string films_block(const Page& page) {
  const auto advice = film_advice(page);
  if (advice.lead.empty()) return "";
  return heading(page.words.say("films.heading")) + paragraph(advice.lead) + bullets(advice.items);
}

std::string notes_block(const Page& page) {
  std::string text;
  if (const auto notes = film_notes(page.graded, page.words); !notes.empty())
    text += heading(page.words.say("notes.films")) + bullets(notes);
  std::vector<std::string> judged;
  for (const auto& [limit, because, changes] : judged_notes(page))
    judged.push_back(limit.empty() ? fmt::format("{}: {}", because.text, changes)
                                   : fmt::format("{} ({}): {}", limit.text, because.text, changes));
  for (const auto& note : page.graded.grade.notes) judged.push_back(say(page.words, note));
  if (!judged.empty()) text += heading(page.words.say("notes.judged")) + bullets(judged);
  return text;
}

}  // namespace

std::string student_text(const Graded& graded, std::string_view length_unit, const Words& words) {
  const Page page{graded, words, length_unit};
  return title_block(page) + grade_block(page) + since_block(page) + work_block(page) +
         overview_block(page) + checks_block(page) + not_shown_block(page) + films_block(page) +
         notes_block(page) + heading(words.say("mind.heading")) + bullets(cautions(words));
}

}  // namespace rangecheck::report
