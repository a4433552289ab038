// SPDX-License-Identifier: MIT
// One function a command: it adds its options to the parser and says what to do when it is asked
// for.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <optional>

#include "base/result.hpp"

namespace rangecheck::app {

/// What each means is in stated.hpp, for `--help` and the manual.
enum ExitCode {
  all_graded = 0,
  some_set_aside = 1,
  bad_usage = 2,
  could_not_run = 3,
  some_below = 4
};

/// Runs a command whose options have been parsed, and returns the exit code.
using Action = std::function<int()>;

/// A command as main sees it: asked for when `parser` was parsed.
struct Command {
  CLI::App* parser;
  Action action;
};

Command add_grade(CLI::App& app);
Command add_agreement(CLI::App& app);
Command add_rules(CLI::App& app);
Command add_inspect(CLI::App& app);
Command add_convert(CLI::App& app);
Command add_progress(CLI::App& app);
Command add_layouts(CLI::App& app);
Command add_forget(CLI::App& app);
Command add_pack(CLI::App& app);
Command add_profile(CLI::App& app);

/// These describe the whole of `app`, with commands that are added later.
Command add_manual(CLI::App& app);
Command add_completion(CLI::App& app);

/// Prints `error` on stderr and returns the exit code that it means for the whole program.
int report_fault(const Error& error);

/// Prints on stdout. A reader that has gone away is not an error, a full disk is.
int print(std::string_view text, int exit_code);

/// Prints on stdout for a reader who waits for it; Fault::io when that fails, also since the reader
/// has gone away.
std::optional<Error> print_line(std::string_view line);

}  // namespace rangecheck::app
