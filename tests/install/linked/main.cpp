// SPDX-License-Identifier: MIT
// A program of somebody else: says what a landmark file is, then grades an inbox and says what the
// grades are. linked FILE INBOX PROFILES ROSTER OUT
#include <cstdio>

#include "inbox/inbox.hpp"
#include "inbox/inspect.hpp"
#include "report/report.hpp"

namespace {

namespace rc = rangecheck;

int fail(const rc::Error& error) {
  std::fprintf(stderr, "linked: %s\n", rc::to_string(error).c_str());
  return 1;
}

/// Prints what `rangecheck inspect FILE` prints.
int inspect(const char* file) {
  const auto inspection = rc::inbox::inspect({.file = file,
                                              .how = {},
                                              .view = std::nullopt,
                                              .rate_hz = std::nullopt,
                                              .filming = rc::grade::shipped_filming()});
  if (!inspection) return fail(inspection.error());
  std::fputs(rc::report::inspection_text(*inspection).c_str(), stdout);
  return 0;
}

/// Grades an inbox into OUT and prints a line for each submission.
int grade(const char* inbox, const char* profiles, const char* roster, const char* out) {
  const auto night =
      rc::inbox::run({.inbox = inbox, .profiles = profiles, .out = out, .roster = roster});
  if (!night) return fail(night.error());
  for (const auto& each : night->graded)
    std::printf("%s: %.3f\n", each.submission.c_str(), each.percent.value_or(-1));
  for (const auto& each : night->set_aside)
    std::printf("%s: %s\n", each.submission.c_str(), rc::to_string(each.error).c_str());
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 6) {
    std::fputs("usage: linked FILE INBOX PROFILES ROSTER OUT\n", stderr);
    return 2;
  }
  const int inspected = inspect(argv[1]);
  return inspected == 0 ? grade(argv[2], argv[3], argv[4], argv[5]) : inspected;
}
