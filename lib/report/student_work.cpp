// SPDX-License-Identifier: MIT
// What to work on, in the page's words.
#include <algorithm>

#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Verdict;

/// Why: the coach's sentence for this side, or a plain one.
Written why(const Page& page, const CheckResult& result) {
  const grade::Words& words = result.check.words;
  const Written& own = result.verdict == Verdict::high ? words.high : words.low;
  if (!own.empty()) return page.words.tell(own);
  return {page.words.say("work.plain-why", {{"measured", measured_text(page, result)},
                                            {"wanted", wanted_text(page, result.check)}}),
          page.words.language()};
}

/// The checks that `result` tends to cause and that are outside too, with their positions where
/// these are others.
std::string follows(const Page& page, const CheckResult& result) {
  std::vector<Named> caused;
  for (const auto& other : page.graded.grade.results) {
    const auto& drives = result.check.drives;
    if (!outside(other) || std::ranges::find(drives, other.check.id) == drives.end()) continue;
    const Place place = other.check.position;
    const bool elsewhere = place != result.check.position;
    caused.push_back({in_sentence(page.words, title_of(page, other.check)),
                      told_at(place, elsewhere && shows_swing(page.graded))});
  }
  if (caused.empty()) return "";
  const std::string checks = named_text(page.words, caused, page.words.say("work.follows-joint"));
  return page.words.say("work.follows", {{"checks", checks}});
}

/// "Stance width: 16.3 ± 1.6 in", or with its place "At the top (p4): shoulder turn 72 ± 8°".
std::string heading_of(const Page& page, const CheckResult& result) {
  const grade::Check& check = result.check;
  const std::string measured = measured_text(page, result);
  const std::string title = title_of(page, check);
  const bool of_whole_swing = !check.position && check.subject == grade::Subject::measured;
  if (!shows_swing(page.graded) || (!check.position && !of_whole_swing))
    return page.words.say("work.measured", {{"title", title}, {"measured", measured}});
  const std::string name = in_sentence(page.words, title);
  if (of_whole_swing)
    return page.words.say("work.measured-over-all", {{"title", name}, {"measured", measured}});
  const std::string position(id_of(*check.position));
  return page.words.say("work.measured-at",
                        {{"when", page.words.say("positions." + position + ".when")},
                         {"alias", std::string(alias_of(*check.position))},
                         {"title", name},
                         {"measured", measured}});
}

}  // namespace

WorkItem work_item(const Page& page, const CheckResult& result) {
  const grade::Words& words = result.check.words;
  return {.heading = heading_of(page, result),
          .wanted = wanted_text(page, result.check),
          .sign = sign_of(page, result.check),
          .follows = follows(page, result),
          .why = why(page, result),
          .aim = page.words.tell(words.inside),
          .drill = page.words.tell(words.drill),
          .careful = page.words.tell(words.caution)};
}

}  // namespace rangecheck::report
