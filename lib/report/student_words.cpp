// SPDX-License-Identifier: MIT
// How a page names and words what was graded.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "grade/reading.hpp"
#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Subject;
using grade::Verdict;

std::string tone(const Page& page, double percent) {
  // Steps of our own, for tone only: no verdict hangs on them.
  if (percent >= 90) return say_of_subject(page, "grade.very-close");
  if (percent >= 75) return page.words.say("grade.close");
  if (percent >= 55) return page.words.say("grade.partly");
  return page.words.say("grade.a-way");
}

std::string club_of(const Words& words, const std::string& club) {
  return words.say_or("clubs." + kebab(club), club);
}

std::string swing_of(const Words& words, const std::string& swing) {
  return words.say_or("swings." + swing, swing);
}

}  // namespace

bool shows_swing(const Graded& graded) {
  return std::ranges::any_of(graded.grade.positions, [](const auto& one) {
    return one.position && one.position != Position::address;
  });
}

std::string address_only(const Page& page) {
  const Graded& graded = page.graded;
  if (shows_swing(graded) || graded.grade.not_found.empty()) return "";
  // Less than this holds no backswing: common practice, no source.
  constexpr double no_backswing_s = 0.5;
  const bool all_end = std::ranges::all_of(graded.films, [](const auto& film) {
    return !film.facts.shows_swing && film.facts.after_address_s &&
           *film.facts.after_address_s < no_backswing_s;
  });
  return page.words.say(all_end ? "page.address-only" : "page.swing-not-found");
}

std::string say_of_subject(const Page& page, std::string_view id,
                           std::initializer_list<Filling> fillings) {
  return page.words.say(fmt::format("{}.{}", id, shows_swing(page.graded) ? "swing" : "set-up"),
                        fillings);
}

std::string name_of(const Page& page) { return name_of(page.graded.name, page.graded.student); }

std::string name_of(const std::string& name, const std::string& student) {
  return name.empty() ? student : name;
}

std::string stroke_line(const Words& words, const std::string& club, const std::string& swing) {
  return words.say("page.what",
                   {{"club", club_of(words, club)}, {"swing", swing_of(words, swing)}});
}

std::string stroke_line(const Page& page) {
  return stroke_line(page.words, page.graded.club, page.graded.swing);
}

std::string what_line(const Page& page) {
  const std::string& received = page.graded.received;
  if (received.empty()) return stroke_line(page);
  // The day is enough on a page for a person; the whole stamp is in the JSON document.
  return page.words.say("page.what-and-day", {{"club", club_of(page.words, page.graded.club)},
                                              {"swing", swing_of(page.words, page.graded.swing)},
                                              {"day", day_of(received)}});
}

std::string title_line(const Page& page) {
  return page.words.say("page.title", {{"name", name_of(page)}, {"what", what_line(page)}});
}

std::string held_against(const Page& page) {
  return say_of_subject(page, "page.held-against",
                        {{"profile", page.words.tell(page.graded.grade.profile_title).text}});
}

std::string grade_sentence(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  const auto whole = [](double value) { return fmt::format("{:.0f}", value); };
  const std::string seen = whole(100 * grade.seen_share);
  if (!grade.percent) return say_of_subject(page, "grade.none", {{"seen", seen}});
  const double half_width = coverage_factor_95 * grade.percent_uncertainty;
  return say_of_subject(page, "grade.given",
                        {{"grade", whole(*grade.percent)},
                         {"half", whole(half_width)},
                         {"tone", tone(page, *grade.percent)},
                         {"seen", seen},
                         {"low", whole(std::max(0.0, *grade.percent - half_width))},
                         {"high", whole(std::min(100.0, *grade.percent + half_width))}});
}

std::string_view registered_title(const Graded& graded, const grade::Check& check) {
  if (check.subject == Subject::observed) return "";
  if (check.subject == Subject::reading) {
    const auto* kind = grade::find_reading(check.rule);
    return kind ? kind->title : "";
  }
  const auto* rule = rule_of(graded, check);
  return rule ? rule->title : "";
}

std::string title_of(const Words& words, const NamedCheck& check) {
  const std::string told = words.tell(check.title).text;
  // A title of the coach's own is in the coach's own words.
  if (!check.is_registered) return told;
  return words.say_or("measures." + check.rule + ".title", told);
}

std::string title_of(const Page& page, const grade::Check& check) {
  return title_of(page.words, {.id = check.id,
                               .rule = check.rule,
                               .title = check.title,
                               .is_registered = check.title == registered_title(page.graded, check),
                               .position = check.position});
}

std::string titled(const Page& page, const grade::Check& check) {
  const std::string title = title_of(page, check);
  return shows_swing(page.graded) ? titled_at(title, check.position) : title;
}

std::string sign_of(const Page& page, const grade::Check& check) {
  const auto* rule = rule_of(page.graded, check);
  if (!rule) return "";
  return page.words.say_or("measures." + check.rule + ".sign",
                           page.words.tell(std::string(rule->sign)).text);
}

std::string region_title(const Page& page, const grade::Check& check) {
  if (check.subject != Subject::measured) return page.words.say("regions.observed");
  const auto* rule = rule_of(page.graded, check);
  if (!rule) return page.words.say("regions.own");
  return page.words.say("regions." + std::string(measure::name_of(rule->region)));
}

std::string measured_text(const Page& page, const CheckResult& result) {
  if (result.check.subject == Subject::observed) {
    // Words of the profile are told as the band tells them; any others as they were noted.
    const Written told = page.words.tell(kebab(result.word));
    return told.text == kebab(result.word) ? result.word : told.text;
  }
  if (!result.value_si) return "-";
  return with_interval(page.words, *result.value_si, result.standard_uncertainty_si,
                       shown_unit(result.check, page.length_unit));
}

std::string wanted_text(const Page& page, const grade::Check& check) {
  return band_text(page.words, check, shown_unit(check, page.length_unit));
}

std::string verdict_text(const Page& page, const CheckResult& result) {
  return verdict_text(page, result.check, result.verdict);
}

std::string verdict_text(const Page& page, const grade::Check& check, Verdict verdict) {
  const bool time = check.dimension == Dimension::time;
  switch (verdict) {
    case Verdict::inside:
      return page.words.say("verdicts.good");
    case Verdict::low:
      return page.words.say(time ? "verdicts.too-short" : "verdicts.too-low");
    case Verdict::high:
      return page.words.say(time ? "verdicts.too-long" : "verdicts.too-high");
    case Verdict::outside_words:
      return page.words.say("verdicts.differs");
    case Verdict::unsure:
      return page.words.say("verdicts.cant-tell");
    case Verdict::not_seen:
      return page.words.say("verdicts.not-seen");
    case Verdict::switched_off:
      return page.words.say("verdicts.left-out");
  }
  return "";
}

std::vector<std::string> remarks(const Page& page, const CheckResult& result) {
  std::vector<std::string> all;
  if (!result.category.empty())
    all.push_back(page.words.say_or("categories." + kebab(result.category), result.category));
  if (!result.note.empty()) all.push_back(say(page.words, result.note));
  return all;
}

std::vector<std::string> film_notes(const Graded& graded, const Words& words) {
  std::vector<std::string> all;
  for (const auto& finding : graded.findings) {
    const bool advised =
        finding.remedy.empty() || (finding.about_camera && told_off_square(graded));
    all.push_back(advised
                      ? say(words, finding.text)
                      : words.say("notes.with-remedy", {{"finding", say(words, finding.text)},
                                                        {"remedy", say(words, finding.remedy)}}));
  }
  for (const auto& note : graded.notes) all.push_back(say(words, note));
  return all;
}

std::vector<std::string> cautions(const Words& words) {
  return {words.say("mind.pain"), words.say("mind.injury"), words.say("mind.professional"),
          words.say("mind.no-advice")};
}

}  // namespace rangecheck::report
