// SPDX-License-Identifier: MIT
// One submission's turn: whether there is anything to do, and doing it. Inside inbox only.
#pragma once

#include <chrono>
#include <optional>

#include "inbox/basis.hpp"
#include "inbox/ledger.hpp"
#include "inbox/naming.hpp"
#include "inbox/output.hpp"
#include "inbox/plan.hpp"
#include "inbox/queues.hpp"
#include "inbox/stamp.hpp"

namespace rangecheck::inbox {

/// What every submission of a run is worked through with.
struct Means {
  const Job& job;
  const Taught& taught;
  const Basis& basis;
  const Output& output;
  const Naming& naming;
  Ledger& ledger;
  std::chrono::system_clock::time_point now;
};

/// What came of a submission: a line of the tables, or why there is none.
struct Outcome {
  std::optional<report::Summary> graded = {};
  std::optional<report::SetAside> set_aside = {};
  std::string said = {};                    ///< hash of what tables say of it, where it is graded
  bool unchanged = false;                   ///< since it was last worked through
  std::optional<report::Graded> anew = {};  ///< all of it, where it was not unchanged
};

/// A submission whose turn it is.
struct Submitted {
  const intake::Location& location;
  const Stamp& stamp;
  const history::Arrival& arrival;
  Waits waits;
};

/// Hash of what the files say; they are not read while it is `known` of files with the same stamp.
/// Empty when they can't all be read.
std::string inputs_of(const Submitted& submitted, const std::optional<history::Worked>& known);

/// Why a submission of which this is `known`, and whose files say `inputs`, has to be worked
/// through; nothing when all that its outputs hang on is as it was, and they are there.
std::optional<Why> why_due(const Submitted& submitted, const std::optional<history::Worked>& known,
                           const std::string& inputs, const Means& means);

/// Whether a submission with this error may be half an upload.
bool may_be_half(const Stamp& stamp, const Error& error, const Means& means);

/// Works through one submission, if anything has changed that touches it: it is read, graded,
/// written and kept. Whatever goes wrong stays its own affair, an exception out of a library
/// included; an error is of the run: OUT can't be written.
Result<Outcome> work_through(const Submitted& submitted, const Means& means);

/// All submissions in order of work: `stamps` are those of the locations. No manifest is read of
/// which the ledger knows that it is as it was.
Result<std::vector<Queue>> queues_of(std::span<const intake::Location> locations,
                                     std::span<const Stamp> stamps, const Means& means);

}  // namespace rangecheck::inbox
