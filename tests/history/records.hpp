// SPDX-License-Identifier: MIT
// Records made by hand.
#pragma once

#include "history/store.hpp"

namespace rangecheck::history {

inline CheckRecord check(const std::string& id, std::optional<double> value_si, double u_si,
                         grade::Band band = {.lower_si = 0.30, .upper_si = 0.40}) {
  return {.id = id,
          .title = "Heel gap",
          .position = Position::address,
          .dimension = Dimension::length,
          .unit = "in",
          .verdict = value_si ? grade::Verdict::unsure : grade::Verdict::not_seen,
          .value_si = value_si,
          .standard_uncertainty_si = value_si ? u_si : 0,
          .band = band};
}

inline Record record(const std::string& submission, const std::string& received,
                     std::vector<CheckRecord> checks) {
  return {.submission = submission,
          .student = "s-1",
          .received = received,
          .club = "7-iron",
          .swing = "full",
          .profile = "middle-iron-full-neutral",
          .version = "0.1.0",
          .percent = 70,
          .percent_uncertainty = 4,
          .work_on = {"heel-gap"},
          .checks = std::move(checks)};
}

inline std::chrono::sys_seconds at(std::int64_t seconds) {
  return std::chrono::sys_seconds(std::chrono::seconds(seconds));
}

}  // namespace rangecheck::history
