// SPDX-License-Identifier: MIT
// A coach's table of readings, and what comes of comparing it: two tables by a byte of 0 between.
#include "history/readings.hpp"

#include "fuzz.hpp"
#include "history/comparison.hpp"

using namespace rangecheck;

namespace {

/// What read_readings lets through at most, in SI.
constexpr double largest_si = 1e6;

std::vector<history::Record> read(const std::string& text) {
  const auto records = history::read_readings(text, "mine.csv");
  const auto again = history::read_readings(text, "mine.csv");
  fuzz::hold(bool(records) == bool(again), "reading is deterministic");
  if (!records) {
    fuzz::hold_error(records.error(), "mine.csv");
    fuzz::hold(to_string(records.error()) == to_string(again.error()), "so are errors");
    return {};
  }
  fuzz::hold(*records == *again, "the same bytes give the same readings");
  for (const auto& record : *records) {
    fuzz::hold(!record.submission.empty() || !record.student.empty(), "a reading is somebody's");
    for (const auto& check : record.checks)
      fuzz::hold_within({check.value_si.value_or(0), check.standard_uncertainty_si}, largest_si);
  }
  return *records;
}

void hold_compared(const history::CheckComparison& check) {
  fuzz::hold(bool(check.differences) == (check.pairs.size() >= history::least_pairs),
             "enough pairs are compared");
  if (!check.differences) return;
  const auto& found = *check.differences;
  // Few pairs know the limits poorly: at three the outer end is 13 sd away.
  for (const auto& [low, high] :
       {found.bias_95, found.limits, found.lower_limit_95, found.upper_limit_95}) {
    fuzz::hold_within({low, high}, 100 * largest_si);
    fuzz::hold(low <= high, "an interval goes up");
  }
  // With three targets and all variance left over it is -3.
  if (check.icc) fuzz::hold_within({check.icc->value}, 3 + 1e-9);
  if (check.trend) fuzz::hold(check.trend->p >= 0 && check.trend->p <= 1, "p is a probability");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto files = fuzz::files_in(fuzz::text_of(data, size));
  if (files.empty()) return 0;
  const auto first = read(files.front()), second = read(files.back());
  const auto both = history::compare(first, second);
  fuzz::hold(both.in_both <= std::min(first.size(), second.size()), "each is matched once");
  for (const auto& check : both.checks) hold_compared(check);
  return 0;
}
