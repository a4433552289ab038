// SPDX-License-Identifier: MIT
#include "history/record.hpp"

namespace rangecheck::history {

CheckRecord record_of(const grade::CheckResult& result) {
  const grade::Check& check = result.check;
  CheckRecord record{.id = check.id,
                     .title = check.title,
                     .position = check.position,
                     .dimension = check.dimension,
                     .unit = check.unit,
                     .verdict = result.verdict,
                     .value_si = std::nullopt,
                     .standard_uncertainty_si = 0,
                     .band = check.band};
  const bool judged =
      result.verdict != grade::Verdict::not_seen && result.verdict != grade::Verdict::switched_off;
  if (judged && result.value_si) {
    record.value_si = result.value_si;
    record.standard_uncertainty_si = result.standard_uncertainty_si;
  }
  return record;
}

}  // namespace rangecheck::history
