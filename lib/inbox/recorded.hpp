// SPDX-License-Identifier: MIT
#pragma once

#include "history/record.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

/// What history keeps of a graded submission.
history::Record record_of(const report::Graded& graded);

}  // namespace rangecheck::inbox
