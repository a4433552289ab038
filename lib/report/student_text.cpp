// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Verdict;

constexpr std::size_t page_width = 80;

/// What the page is about, in running text.
std::string_view subject_of(const Graded& graded) {
  return shows_swing(graded) ? "swing" : "set-up";
}

/// Where in the swing, as one says it.
std::string_view at_words(Position position) {
  switch (position) {
    case Position::address:
      return "At address";
    case Position::shaft_parallel_back:
      return "Going back, shaft parallel";
    case Position::lead_arm_parallel_back:
      return "Going back, lead arm parallel";
    case Position::top:
      return "At the top";
    case Position::lead_arm_parallel_down:
      return "Coming down, lead arm parallel";
    case Position::shaft_parallel_down:
      return "Coming down, shaft parallel";
    case Position::impact:
      return "At impact";
    case Position::shaft_parallel_through:
      return "After impact, shaft parallel";
    case Position::trail_arm_parallel_through:
      return "After impact, trail arm parallel";
    case Position::finish:
      return "At the finish";
  }
  return "";
}

std::string title_block(const Graded& graded) {
  const std::string& who = graded.name.empty() ? graded.student : graded.name;
  std::string line = fmt::format("{}: {}, {}", who, graded.club, graded.swing);
  // The day is enough on a page for a person; the whole stamp is in the JSON document.
  if (!graded.received.empty()) line += ", " + graded.received.substr(0, 10);
  const bool swing = shows_swing(graded);
  std::string text = paragraph(line) + std::string(page_width, '=') + "\n";
  text += paragraph(fmt::format("Your {}, held against: {}", swing ? "swing" : "set-up at address",
                                graded.grade.profile_title));
  if (!swing && !graded.grade.not_found.empty())
    text += paragraph("The films show the address only. How to show the swing is further down.");
  return text;
}

std::string in_words(double percent, std::string_view subject) {
  // Steps of our own, for tone only: no verdict hangs on them.
  if (percent >= 90) return fmt::format("very close to the {} you are working toward", subject);
  if (percent >= 75) return "close, with something to tidy up";
  if (percent >= 55) return "partly there";
  return "a way to go yet; take it one step at a time";
}

std::string grade_block(const Graded& graded) {
  const grade::Grade& grade = graded.grade;
  const std::string_view subject = subject_of(graded);
  std::string text = heading("Grade");
  const double seen_percent = 100 * grade.seen_share;
  if (!grade.percent) {
    return text + paragraph(fmt::format("No grade this time: the films show only {:.0f} % of what "
                                        "this {} is judged on. How to film the rest is below.",
                                        seen_percent, subject));
  }
  const double half_width = coverage_factor_95 * grade.percent_uncertainty;
  return text + paragraph(fmt::format(
                    "{:.0f} % ± {:.0f}: {}. This rests on the {:.0f} % of your {} that could "
                    "be judged; another film of the same {} could give any grade from {:.0f} "
                    "to {:.0f} %.",
                    *grade.percent, half_width, in_words(*grade.percent, subject), seen_percent,
                    subject, subject, std::max(0.0, *grade.percent - half_width),
                    std::min(100.0, *grade.percent + half_width)));
}

/// Why: the coach's sentence for this side, or a plain one.
std::string why(const CheckResult& result, const Unit& unit) {
  const grade::Words& words = result.check.words;
  const std::string& own = result.verdict == Verdict::high ? words.high : words.low;
  if (!own.empty()) return own;
  return fmt::format("It is {} where {} is wanted.", measured_text(result, unit),
                     band_text(result.check, unit));
}

/// The checks that `result` tends to cause and that are outside too, with their positions where
/// these are others.
std::string knock_on(const CheckResult& result, const Graded& graded) {
  std::vector<Named> caused;
  for (const auto& other : graded.grade.results) {
    const auto& drives = result.check.drives;
    if (!outside(other) || std::find(drives.begin(), drives.end(), other.check.id) == drives.end())
      continue;
    const Place place = other.check.position;
    const bool elsewhere = place != result.check.position;
    caused.push_back({lower(other.check.title), told_at(place, elsewhere && shows_swing(graded))});
  }
  return named_text(caused, ", and ");
}

/// "Stance width: 16.3 ± 1.6 in", or with its place "At the top (p4): shoulder turn 72 ± 8 deg".
std::string item_heading(const CheckResult& result, std::string_view measured, bool swing) {
  const grade::Check& check = result.check;
  const bool of_whole_swing = !check.position && check.subject == grade::Subject::measured;
  if (!swing || (!check.position && !of_whole_swing))
    return fmt::format("{}: {}", check.title, measured);
  const std::string where =
      of_whole_swing ? "Over the whole swing"
                     : fmt::format("{} ({})", at_words(*check.position), alias_of(*check.position));
  return fmt::format("{}: {} {}", where, lower(check.title), measured);
}

std::string work_item(const CheckResult& result, const Graded& graded,
                      std::string_view length_unit) {
  const Unit& unit = shown_unit(result.check, length_unit);
  const grade::Words& words = result.check.words;
  std::string text =
      paragraph(fmt::format("{}; wanted {}.",
                            item_heading(result, measured_text(result, unit), shows_swing(graded)),
                            band_text(result.check, unit)),
                "  ");
  const measure::Rule* rule = rule_of(graded, result.check);
  if (rule) text += paragraph(fmt::format("({})", rule->sign), "    ");
  text += paragraph(why(result, unit), "    Why      ");
  const std::string follows = knock_on(result, graded);
  if (!follows.empty())
    text += paragraph("It may well be behind your " + follows + " too.", "             ");
  if (!words.inside.empty()) text += paragraph(words.inside, "    Aim      ");
  if (!words.drill.empty()) text += paragraph(words.drill, "    Drill    ");
  if (!words.caution.empty()) text += paragraph(words.caution, "    Careful  ");
  return text;
}

std::string work_block(const Graded& graded, std::string_view length_unit) {
  const grade::Grade& grade = graded.grade;
  std::string text = heading("Work on first");
  // Too little for a grade is too little for advice: the one thing to do is to film again.
  if (!grade.percent) return text + "Film again first; there is too little to go on.\n";
  if (grade.work_on.empty())
    return text + fmt::format("Nothing stands out. Keep your {} as it is.\n", subject_of(graded));
  for (std::size_t i = 0; i < grade.work_on.size(); ++i) {
    if (i == 1) text += "\nThen, when that has become a habit:\n";
    text += '\n';
    text += work_item(grade.results[grade.work_on[i]], graded, length_unit);
  }
  return text;
}

std::string notes_block(const Graded& graded) {
  std::string text;
  for (const auto& finding : graded.findings) {
    const bool advised =
        finding.remedy.empty() || (finding.about_camera && told_off_square(graded));
    text += paragraph(advised ? finding.text : fmt::format("{} ({})", finding.text, finding.remedy),
                      "  * ");
  }
  for (const auto& note : graded.notes) text += paragraph(note, "  * ");
  if (!text.empty()) text = heading("About the films") + text;

  std::string bands;
  for (const auto& note : graded.grade.notes) bands += paragraph(note, "  * ");
  bands += left_out_lines(graded);
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

std::string heading(std::string_view title) {
  return fmt::format("\n{}\n{}\n", title, std::string(columns(title), '-'));
}

bool shows_swing(const Graded& graded) {
  const auto& positions = graded.grade.positions;
  return std::any_of(positions.begin(), positions.end(), [](const auto& one) {
    return one.position && one.position != Position::address;
  });
}

std::string measured_text(const CheckResult& result, const Unit& unit) {
  if (result.check.subject == grade::Subject::observed) return result.word;
  if (!result.value_si) return "-";
  return with_interval(*result.value_si, result.standard_uncertainty_si, unit);
}

std::string student_text(const Graded& graded, std::string_view length_unit) {
  return title_block(graded) + grade_block(graded) + work_block(graded, length_unit) +
         overview_block(graded) + checks_block(graded, length_unit) +
         not_shown_block(graded, length_unit) + films_block(graded) + notes_block(graded) +
         cautions_block();
}

}  // namespace rangecheck::report
