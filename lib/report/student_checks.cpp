// SPDX-License-Identifier: MIT
// Checks place by place, and what stands over them.
#include <algorithm>

#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Subject;
using grade::Verdict;

bool is_time(const CheckResult* one) { return one->check.subject == Subject::measured; }

}  // namespace

Results results_at(const grade::Grade& grade, Place place) {
  Results found;
  for (const auto& result : grade.results)
    if (result.check.position == place) found.push_back(&result);
  return found;
}

std::array<Results, 2> rest_of(const grade::Grade& grade) {
  Results rest = results_at(grade, std::nullopt);
  const auto by_people = std::ranges::stable_partition(rest, is_time);
  return {Results(rest.begin(), by_people.begin()), Results(by_people.begin(), rest.end())};
}

const grade::PositionNotFound* not_found(const grade::Grade& grade, Place place) {
  const auto found =
      std::ranges::find_if(grade.not_found, [&](const auto& one) { return one.position == place; });
  return found == grade.not_found.end() ? nullptr : &*found;
}

std::string name_of_rest(const Page& page, const Results& results) {
  if (std::ranges::all_of(results, is_time)) return page.words.say("glance.timing");
  if (std::ranges::none_of(results, is_time)) return page.words.say("glance.seen-by-people");
  return page.words.say("glance.both");
}

std::string grade_text(const Page& page, Place place) {
  const grade::Grade& grade = page.graded.grade;
  if (not_found(grade, place)) return page.words.say("glance.not-found");
  const auto found = std::ranges::find(grade.positions, place, &grade::PositionGrade::position);
  if (found == grade.positions.end() || !found->percent) return "-";
  return percent_text(*found->percent, found->percent_uncertainty);
}

std::vector<VerdictColumn> used_columns(const Page& page) {
  const VerdictColumn all[] = {{page.words.say("glance.good"), Verdict::inside},
                               {page.words.say("glance.too-low"), Verdict::low},
                               {page.words.say("glance.too-high"), Verdict::high},
                               {page.words.say("glance.differs"), Verdict::outside_words},
                               {page.words.say("glance.cant-tell"), Verdict::unsure},
                               {page.words.say("glance.not-seen"), Verdict::not_seen}};
  std::vector<VerdictColumn> used;
  for (const VerdictColumn& column : all)
    if (!results_with(page.graded.grade, column.verdict).empty()) used.push_back(column);
  return used;
}

std::size_t count_with(const Results& results, Verdict verdict) {
  return static_cast<std::size_t>(std::ranges::count_if(
      results, [&](const CheckResult* one) { return one->verdict == verdict; }));
}

}  // namespace rangecheck::report
