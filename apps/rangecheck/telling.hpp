// SPDX-License-Identifier: MIT
// What a run says on stderr. It may be mailed or kept by whatever starts the program, so it names
// submissions by id only.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "inbox/inbox.hpp"
#include "terminal.hpp"

namespace rangecheck::app {

enum class Loudness { quiet, normal, verbose };

/// How errors are written: for people, or a line of JSON each and nothing else.
enum class ErrorForm { text, json };

/// Prints `error` and returns the exit code that it means for the whole program.
int report_fault(const Error& error, ErrorForm form);

class Telling {
 public:
  Telling(Loudness loudness, ErrorForm form) : loudness_(loudness), form_(form) {}

  /// What was set aside or waits, always; what was graded, if verbose. On a terminal a bar, unless
  /// quiet or where nobody knows how many there will be (0).
  void progress(const inbox::Progress& progress);
  /// A grade that is surely below what was asked for. No error, so nothing in JSON.
  void below(const report::Summary& graded, double percent);
  /// Takes the bar away.
  void end_of_bar();
  /// How many of each; not if quiet.
  void count(const inbox::Night& night);
  /// A line about the whole, for people; not if quiet.
  void say(std::string_view text);

 private:
  /// A line for people; the bar moves out of its way.
  void line(std::string_view text);
  /// `text`, in colour where the terminal has any.
  std::string marked(std::string_view text, std::string_view colour) const;

  Loudness loudness_;
  ErrorForm form_;
  Terminal terminal_ = stderr_terminal();
  std::size_t set_aside_ = 0;
  bool bar_shown_ = false;
};

}  // namespace rangecheck::app
