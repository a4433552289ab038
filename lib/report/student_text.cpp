// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Verdict;

constexpr std::size_t page_width = 80;

std::string heading(std::string_view title) {
  return fmt::format("\n{}\n{}\n", title, std::string(columns(title), '-'));
}

std::string title_block(const Graded& graded) {
  const std::string& who = graded.name.empty() ? graded.student : graded.name;
  std::string line = fmt::format("{}: {}, {}", who, graded.club, graded.swing);
  // The day is enough on a page for a person; the whole stamp is in the JSON document.
  if (!graded.received.empty()) line += ", " + graded.received.substr(0, 10);
  return paragraph(line) + std::string(page_width, '=') + "\n" +
         paragraph("Your set-up at address, held against: " + graded.grade.profile_title);
}

std::string_view in_words(double percent) {
  // Steps of our own, for tone only: no verdict hangs on them.
  if (percent >= 90) return "very close to the set-up you are working toward";
  if (percent >= 75) return "close, with something to tidy up";
  if (percent >= 55) return "partly there";
  return "a way to go yet; take it one step at a time";
}

std::string grade_block(const grade::Grade& grade) {
  std::string text = heading("Grade");
  const double seen_percent = 100 * grade.seen_share;
  if (!grade.percent) {
    return text + paragraph(fmt::format("No grade this time: the films show only {:.0f} % of what "
                                        "this set-up is judged on. How to film the rest is below.",
                                        seen_percent));
  }
  const double half_width = coverage_factor_95 * grade.percent_uncertainty;
  return text + paragraph(fmt::format(
                    "{:.0f} % ± {:.0f}: {}. This rests on the {:.0f} % of your set-up that could "
                    "be judged; another film of the same set-up could give any grade from {:.0f} "
                    "to {:.0f} %.",
                    *grade.percent, half_width, in_words(*grade.percent), seen_percent,
                    std::max(0.0, *grade.percent - half_width),
                    std::min(100.0, *grade.percent + half_width)));
}

std::string measured_text(const CheckResult& result, const Unit& unit) {
  if (result.check.subject == grade::Subject::observed) return result.word;
  if (!result.value_si) return "-";
  return with_interval(*result.value_si, result.standard_uncertainty_si, unit);
}

std::string_view in_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::inside:
      return "good";
    case Verdict::low:
      return "too low";
    case Verdict::high:
      return "too high";
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

/// Why: the coach's sentence for this side, or a plain one.
std::string why(const CheckResult& result, const Unit& unit) {
  const grade::Words& words = result.check.words;
  const std::string& own = result.verdict == Verdict::high ? words.high : words.low;
  if (!own.empty()) return own;
  return fmt::format("It is {} where {} is wanted.", measured_text(result, unit),
                     band_text(result.check, unit));
}

/// Titles of the checks that `result` tends to cause and that are outside too.
std::vector<std::string> knock_on(const CheckResult& result, const grade::Grade& grade) {
  std::vector<std::string> titles;
  for (const auto& other : grade.results) {
    const auto& drives = result.check.drives;
    const bool outside = other.verdict == Verdict::low || other.verdict == Verdict::high ||
                         other.verdict == Verdict::outside_words;
    if (outside && std::find(drives.begin(), drives.end(), other.check.id) != drives.end())
      titles.push_back(lower(other.check.title));
  }
  return titles;
}

std::string work_item(const CheckResult& result, const grade::Grade& grade,
                      std::string_view length_unit) {
  const Unit& unit = shown_unit(result.check, length_unit);
  const grade::Words& words = result.check.words;
  std::string text =
      paragraph(fmt::format("{}: {}; wanted {}.", result.check.title, measured_text(result, unit),
                            band_text(result.check, unit)),
                "  ");
  const measure::Rule* rule = measure::find_rule(result.check.id);
  if (rule) text += paragraph(fmt::format("({})", rule->sign), "    ");
  text += paragraph(why(result, unit), "    Why      ");
  const auto follows = knock_on(result, grade);
  if (!follows.empty())
    text += paragraph("It may well be behind your " + listed(follows) + " too.", "             ");
  if (!words.inside.empty()) text += paragraph(words.inside, "    Aim      ");
  if (!words.drill.empty()) text += paragraph(words.drill, "    Drill    ");
  if (!words.caution.empty()) text += paragraph(words.caution, "    Careful  ");
  return text;
}

std::string work_block(const grade::Grade& grade, std::string_view length_unit) {
  std::string text = heading("Work on first");
  // Too little for a grade is too little for advice: the one thing to do is to film again.
  if (!grade.percent) return text + "Film again first; there is too little to go on.\n";
  if (grade.work_on.empty()) return text + "Nothing stands out. Keep your set-up as it is.\n";
  for (std::size_t i = 0; i < grade.work_on.size(); ++i) {
    if (i == 1) text += "\nThen, when that has become a habit:\n";
    text += '\n';
    text += work_item(grade.results[grade.work_on[i]], grade, length_unit);
  }
  return text;
}

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

std::string checks_block(const grade::Grade& grade, std::string_view length_unit) {
  std::string text = heading("From the ground up");
  std::string rows;
  std::string_view region;
  for (const auto& result : grade.results) {
    if (result.verdict == Verdict::not_seen || result.verdict == Verdict::switched_off) continue;
    const Unit& unit = shown_unit(result.check, length_unit);
    if (region != region_of(result.check)) {
      region = region_of(result.check);
      rows += fmt::format("{}\n", region);
    }
    std::string measured = measured_text(result, unit);
    rows += table_row(printable(result.check.title), printable(measured),
                      printable(band_text(result.check, unit)), in_words(result.verdict));
    for (const auto* remark : {&result.category, &result.note})
      if (!remark->empty()) rows += paragraph(fmt::format("({})", *remark), "    ");
  }
  if (rows.empty()) return text + "None of the checks could be judged from these films.\n";
  return text + table_row("", "you", "wanted", "") + rows +
         paragraph(
             "The true value is within the ± of what is shown 95 times in 100. \"can't "
             "tell\" means that the films leave too much doubt about the side of the edge you are "
             "on.");
}

/// A check that could not be judged, as the page says it.
struct Unseen {
  std::string remedy, reason, title;
};

Unseen unseen(const CheckResult& result, const Graded& graded, std::string_view length_unit) {
  const std::string title = lower(result.check.title);
  const auto measured =
      std::find_if(graded.measured.begin(), graded.measured.end(),
                   [&](const auto& one) { return one.rule->id == result.check.id; });
  if (measured == graded.measured.end() || !measured->value)
    return {result.remedy, result.reason, title};
  // Each such reason has numbers of its own; the page gives one reason and the spread of each.
  const Unit& unit = shown_unit(result.check, length_unit);
  const double half_width = shown(coverage_factor_95 * measured->standard_uncertainty, unit);
  return {result.remedy, "not sharply enough",
          fmt::format("{} (± {}{}{})", title, digits(half_width, unit),
                      unit.symbol.empty() ? "" : " ", unit.symbol)};
}

/// The entries whose `field` is the same, together, in the order in which each first comes up.
std::vector<std::vector<Unseen>> grouped(const std::vector<Unseen>& entries,
                                         std::string Unseen::*field) {
  std::vector<std::vector<Unseen>> groups;
  for (const auto& entry : entries) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& group) {
      return group.front().*field == entry.*field;
    });
    if (same == groups.end()) {
      groups.push_back({entry});
    } else {
      same->push_back(entry);
    }
  }
  return groups;
}

std::string not_shown_block(const Graded& graded, std::string_view length_unit) {
  std::vector<Unseen> entries;
  for (const CheckResult* result : results_with(graded.grade, Verdict::not_seen))
    entries.push_back(unseen(*result, graded, length_unit));
  if (entries.empty()) return "";
  std::string text = heading("What the films could not show");
  for (const auto& with_remedy : grouped(entries, &Unseen::remedy)) {
    for (const auto& with_reason : grouped(with_remedy, &Unseen::reason)) {
      std::vector<std::string> titles;
      for (const auto& entry : with_reason) titles.push_back(entry.title);
      text += paragraph(fmt::format("{}: {}", with_reason.front().reason, listed(titles)), "  * ");
    }
    const std::string& remedy = with_remedy.front().remedy;
    if (!remedy.empty()) text += paragraph(remedy, "    To see this: ");
  }
  return text;
}

std::string notes_block(const Graded& graded) {
  std::string text;
  for (const auto& finding : graded.findings) {
    text += paragraph(finding.remedy.empty() ? finding.text
                                             : fmt::format("{} ({})", finding.text, finding.remedy),
                      "  * ");
  }
  for (const auto& note : graded.notes) text += paragraph(note, "  * ");
  if (!text.empty()) text = heading("About the films") + text;

  std::string bands;
  for (const auto& note : graded.grade.notes) bands += paragraph(note, "  * ");
  for (const CheckResult* result : results_with(graded.grade, Verdict::switched_off))
    bands +=
        paragraph(fmt::format("{}: left out, {}", result->check.title, result->reason), "  * ");
  if (!bands.empty()) text += heading("How you were judged") + bands;
  return text;
}

std::string cautions_block() {
  return heading("Please mind") + paragraph("Stop at once if anything hurts.", "  * ") +
         paragraph(
             "An old injury or a stiff joint comes before any number on this page: do less, "
             "and tell your coach, who can change what is asked of you.",
             "  * ") +
         paragraph(
             "With pain or a past injury, ask a doctor, physiotherapist or another licensed "
             "professional before you practise.",
             "  * ") +
         paragraph("This page grades your posture in a film. It is no medical advice.", "  * ");
}

}  // namespace

std::string student_text(const Graded& graded, std::string_view length_unit) {
  return title_block(graded) + grade_block(graded.grade) + work_block(graded.grade, length_unit) +
         checks_block(graded.grade, length_unit) + not_shown_block(graded, length_unit) +
         notes_block(graded) + cautions_block();
}

}  // namespace rangecheck::report
