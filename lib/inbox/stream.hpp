// SPDX-License-Identifier: MIT
// Grading without an inbox and without output files: records in, results out.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>

#include "base/result.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

/// A checked job: what `rangecheck grade -` asks for.
struct StreamJob {
  std::filesystem::path profiles;
  std::optional<std::filesystem::path> roster;
  unsigned workers = 0;  ///< 0: one per core
};

/// What became of one record.
struct Streamed {
  Result<report::Graded, report::SetAside> outcome;
  double took_s = 0;  ///< on the clock
};

/// Grades each record (intake/record.hpp) that comes from the file `input`, on all workers, and
/// gives the outcomes to `take` in order of input, one at a time and each as soon as those before
/// it are done; false from `take` ends the stream. Writes nothing anywhere, and knows of one record
/// no more than it carries: since_last comes from its earlier submissions, which are graded again
/// for it. However long the input, no more than a few records a worker are held. An error when
/// nothing could be graded, by a mistake in profiles or roster, and Fault::io when `input` can't be
/// read on.
Result<Nothing> stream(const StreamJob& job, int input,
                       const std::function<bool(const Streamed&)>& take);

}  // namespace rangecheck::inbox
