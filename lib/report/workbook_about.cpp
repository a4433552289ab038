// SPDX-License-Identifier: MIT
#include "report/workbook_about.hpp"

#include <fmt/format.h>

#include "report/present.hpp"

namespace rangecheck::report {
namespace {

using grade::Verdict;

Cells line(std::string_view about, std::string_view what, std::string_view text) {
  return {text_cell(about), text_cell(what), text_cell(text)};
}

Cells verdict_line(Verdict verdict, std::string_view text) {
  return line("verdicts", grade::name_of(verdict), text);
}

void add_columns(std::vector<Cells>& rows, std::string_view sheet,
                 const std::vector<Column>& columns) {
  for (const auto& column : columns)
    if (!column.meaning.empty())
      rows.push_back(line(fmt::format("sheet {}", sheet), titled(column), column.meaning));
}

std::vector<Cells> general_lines(std::string_view length_unit) {
  return {
      line("cautions", "no medical advice",
           "rangecheck grades posture as far as films show it. Set a student's limits together "
           "with whoever treats the student; pain ends an exercise."),
      line(
          "cautions", "not seen is no fault",
          "What a film cannot show is left empty and never guessed. A student is not worse for it: "
          "remedy says how to film it."),
      line("cautions", "whose data this is",
           "Everything here is about people. Students stand here by id only; their names are on "
           "their pages."),
      line("units", "lengths", fmt::format("{}; angles are in deg, times in s.", length_unit)),
      line("units", "in the header",
           "A column's unit stands in its header in brackets; [unit] means the unit of the same "
           "row."),
      line("uncertainty", "u",
           "Standard uncertainty: the true value lies within 1 u of the value in about 68 of 100 "
           "cases."),
      line("uncertainty", "± (95 %)",
           "Half of the 95 % interval, 1.96 u: the true value lies within it in about 95 of 100 "
           "cases. The students' pages and the coach's table print this one."),
      line("uncertainty", "low_95, high_95", "The two ends of the 95 % interval."),
      verdict_line(Verdict::inside,
                   "The true value lies in the band, with the probability that the profile asks "
                   "for; or a word is one of those wanted."),
      verdict_line(Verdict::low, "It lies below the band, with that probability."),
      verdict_line(Verdict::high, "It lies above the band, with that probability."),
      verdict_line(Verdict::outside_words, "A word is none of those wanted."),
      verdict_line(Verdict::unsure, "The film cannot decide; the value is the best there is."),
      verdict_line(Verdict::not_seen, "No film shows it well enough; see reason and remedy."),
      verdict_line(Verdict::switched_off, "Not asked of this student, for the reason given."),
      line("colours", "verdicts",
           "green inside, blue and bold low, orange and bold high, pink and bold outside, yellow "
           "unsure, grey the rest. The word in the cell says the same."),
      line("colours", "value on the sheet Checks",
           "green: in its band; blue and bold: below; orange and bold: above; band_low and "
           "band_high stand beside it. This is the value alone: the verdict knows how sure it is "
           "as well."),
      line("text", "as it was written",
           "Text from people's files is text here, never a formula or a link. Characters that "
           "cannot be seen are written like \\x0a, and text too long for a cell ends with …"),
      line("other files", "checks.csv, submissions.csv",
           "The sheets Checks and Side by side as text, with the same numbers."),
  };
}

}  // namespace

std::vector<Column> about_columns() {
  return {{"about", "", "", 20}, {"what", "", "", 28}, {"meaning", "", "", 100}};
}

std::vector<Cells> about_rows(std::span<const Sheet* const> sheets, std::string_view length_unit) {
  std::vector<Cells> rows;
  for (const Sheet* sheet : sheets)
    if (sheet->left_off() > 0)
      rows.push_back(line("cautions", sheet->name(),
                          fmt::format("{} rows more than a sheet can hold were left off; they are "
                                      "in checks.csv or submissions.csv.",
                                      sheet->left_off())));
  for (auto& row : general_lines(length_unit)) rows.push_back(std::move(row));
  add_columns(rows, "Submissions", submission_columns());
  add_columns(rows, "Checks", check_columns());
  add_columns(rows, "Side by side", wide_head().columns);
  rows.push_back(line("sheet Side by side", "CHECK, CHECK u, CHECK verdict",
                      "For every check its value or word, its standard uncertainty, its verdict."));
  add_columns(rows, "Set aside", set_aside_columns());
  return rows;
}

}  // namespace rangecheck::report
