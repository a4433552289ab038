// SPDX-License-Identifier: MIT
#include "inbox/recorded.hpp"

namespace rangecheck::inbox {

history::Record record_of(const report::Graded& graded) {
  const grade::Grade& grade = graded.grade;
  history::Record record{.submission = graded.submission,
                         .student = graded.student,
                         .received = graded.received,
                         .club = graded.club,
                         .swing = graded.swing,
                         .profile = grade.profile_id,
                         .version = graded.version,
                         .percent = grade.percent,
                         .percent_uncertainty = grade.percent ? grade.percent_uncertainty : 0,
                         .work_on = {},
                         .checks = {}};
  for (const std::size_t index : grade.work_on)
    record.work_on.push_back(grade.results[index].check.id);
  for (const auto& result : grade.results) record.checks.push_back(history::record_of(result));
  return record;
}

}  // namespace rangecheck::inbox
