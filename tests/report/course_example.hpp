// SPDX-License-Identifier: MIT
// Earlier submissions of the examples' student, made by hand.
#pragma once

#include <algorithm>
#include <functional>

#include "example.hpp"

namespace rangecheck::report {

/// What history keeps of `graded`, as submission `id` of another day, changed by `change`.
inline history::Record earlier_record(const Graded& graded, const std::string& id,
                                      const std::string& received,
                                      const std::function<void(history::Record&)>& change = {}) {
  history::Record record{.submission = id,
                         .student = graded.student,
                         .received = received,
                         .club = graded.club,
                         .swing = graded.swing,
                         .profile = graded.grade.profile_id,
                         .version = graded.version,
                         .percent = graded.grade.percent,
                         .percent_uncertainty = graded.grade.percent_uncertainty,
                         .work_on = {},
                         .checks = {}};
  for (const std::size_t index : graded.grade.work_on)
    record.work_on.push_back(graded.grade.results[index].check.id);
  for (const auto& result : graded.grade.results)
    record.checks.push_back(history::record_of(result));
  if (change) change(record);
  return record;
}

inline history::CheckRecord& check_in(history::Record& record, const std::string& id) {
  return *std::ranges::find(record.checks, id, &history::CheckRecord::id);
}

/// `graded` after these.
inline Graded after(Graded graded, const std::vector<history::Record>& records) {
  std::vector<history::Dated> earlier;
  for (const auto& record : records) earlier.push_back({record, {}});
  graded.course = history::course_of(
      std::move(earlier), {earlier_record(graded, graded.submission, graded.received), {}});
  return graded;
}

/// The example of the address with two earlier ones: the heel gap came nearer step by step, the
/// band of the shoulder tilt was moved and the tilt itself did not change, the grade went up.
inline Graded example_with_course() {
  const Graded graded = example_graded();
  return after(graded, {earlier_record(graded, "s-0417-7-iron-1", "2026-02-28",
                                       [](history::Record& record) {
                                         check_in(record, "heel-gap").value_si = 7 * 0.0254;
                                         record.percent = 40;
                                       }),
                        earlier_record(graded, "s-0417-7-iron-2", "2026-03-07T09:00:00Z",
                                       [](history::Record& record) {
                                         check_in(record, "heel-gap").value_si = 8.5 * 0.0254;
                                         check_in(record, "trail-tilt").band.upper_si =
                                             15 * rad_per_deg;
                                         record.percent = 45;
                                         record.work_on = {"trail-tilt"};
                                       })});
}

}  // namespace rangecheck::report
