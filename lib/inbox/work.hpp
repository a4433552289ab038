// SPDX-License-Identifier: MIT
// One submission's turn: whether there is anything to do, and doing it. Inside inbox only.
#pragma once

#include <chrono>
#include <optional>

#include "inbox/basis.hpp"
#include "inbox/ledger.hpp"
#include "inbox/naming.hpp"
#include "inbox/output.hpp"
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

/// Works through one submission, if anything has changed that touches it: it is read, graded,
/// written and kept. Whatever goes wrong stays its own affair, an exception out of a library
/// included; an error is of the run: OUT can't be written.
Result<Outcome> work_through(const Submitted& submitted, const Means& means);

/// Whose a submission is: as the ledger knows while no file has changed, else as its files say.
std::optional<intake::Sender> sender_of(const intake::Location& location, const Stamp& stamp,
                                        const Naming& naming, const Ledger& ledger);

}  // namespace rangecheck::inbox
