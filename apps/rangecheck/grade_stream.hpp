// SPDX-License-Identifier: MIT
// `grade -`: records on standard input, JSON Lines on standard output.
#pragma once

#include <optional>

#include "inbox/stream.hpp"
#include "telling.hpp"

namespace rangecheck::app {

struct StreamOptions {
  inbox::StreamJob job;
  std::optional<double> fail_below;
  Loudness loudness = Loudness::normal;
  ErrorForm errors = ErrorForm::text;
};

/// Runs it and returns the exit code. What the run makes is on standard output alone, so that a
/// reader who goes away is a failure here.
int grade_stream(const StreamOptions& options);

}  // namespace rangecheck::app
