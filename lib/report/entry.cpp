// SPDX-License-Identifier: MIT
#include "report/entry.hpp"

#include "report/present.hpp"
#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

NamedCheck named(const Graded& graded, const grade::Check& check) {
  return {.id = check.id,
          .rule = check.rule,
          .title = check.title,
          .is_registered = check.title == registered_title(graded, check),
          .position = check.position};
}

CheckEntry check_entry(const Graded& graded, const grade::CheckResult& result) {
  const grade::Check& check = result.check;
  return {.check = named(graded, check),
          .region = std::string(region_of(graded, check)),
          .dimension = check.dimension,
          .unit = check.unit,
          .band = check.band,
          .accept = check.accept,
          .weight = check.weight,
          .verdict = result.verdict,
          .value_si = result.value_si,
          .standard_uncertainty_si = result.standard_uncertainty_si,
          .word = result.word,
          .probability_inside = result.probability.inside,
          .score = result.score.expected,
          .reason = in_english(result.reason),
          .remedy = in_english(result.remedy)};
}

}  // namespace

Entry entry_of(const Graded& graded) {
  const grade::Grade& grade = graded.grade;
  Entry entry{.summary = {.submission = graded.submission,
                          .student = graded.student,
                          .name = graded.name,
                          .received = graded.received,
                          .club = graded.club,
                          .swing = graded.swing,
                          .profile = grade.profile_id,
                          .percent = grade.percent,
                          .percent_uncertainty = grade.percent_uncertainty,
                          .seen_share = grade.seen_share,
                          .positions = positions_of(grade),
                          .films = worse_film(graded),
                          .work_on = {}},
              .checks = {}};
  for (const std::size_t index : grade.work_on)
    entry.summary.work_on.push_back(named(graded, grade.results[index].check));
  for (const auto& result : grade.results) entry.checks.push_back(check_entry(graded, result));
  return entry;
}

Entries entries_of(std::span<const Graded> graded) {
  return [graded](const std::function<void(const Entry&)>& use) -> Result<Nothing> {
    for (const auto& one : graded) use(entry_of(one));
    return Nothing{};
  };
}

}  // namespace rangecheck::report
