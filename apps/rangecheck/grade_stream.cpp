// SPDX-License-Identifier: MIT
#include "grade_stream.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include "commands.hpp"
#include "grade/surely_below.hpp"
#include "report/entry.hpp"
#include "report/report.hpp"

namespace rangecheck::app {
namespace {

std::string line_of(const inbox::Streamed& streamed) {
  return streamed.outcome ? report::result_json(*streamed.outcome, std::nullopt)
                          : report::set_aside_json(streamed.outcome.error(), std::nullopt);
}

bool is_below(const report::Graded& graded, std::optional<double> percent) {
  return percent &&
         grade::surely_below(graded.grade.percent, graded.grade.percent_uncertainty, *percent);
}

}  // namespace

int grade_stream(const StreamOptions& options) {
  Telling telling(options.loudness, options.errors);
  std::size_t graded = 0, set_aside = 0;
  bool below = false;
  std::optional<Error> unwritten;
  const auto done = inbox::stream(options.job, STDIN_FILENO, [&](const inbox::Streamed& each) {
    const auto& outcome = each.outcome;
    ++(outcome ? graded : set_aside);
    telling.progress({.done = graded + set_aside,
                      .submission = outcome ? outcome->submission : outcome.error().submission,
                      .graded = outcome ? &*outcome : nullptr,
                      .set_aside = outcome ? nullptr : &outcome.error(),
                      .took_s = each.took_s});
    if (outcome && is_below(*outcome, options.fail_below)) {
      telling.below(report::entry_of(*outcome).summary, *options.fail_below);
      below = true;
    }
    unwritten = print_line(line_of(each));
    return !unwritten;
  });
  if (!done) return report_fault(done.error(), options.errors);
  if (unwritten) return report_fault(*unwritten, options.errors);
  telling.say(fmt::format("{} graded, {} set aside", graded, set_aside));
  return below ? some_below : set_aside > 0 ? some_set_aside : all_graded;
}

}  // namespace rangecheck::app
