// SPDX-License-Identifier: MIT
#include "dry_run.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "commands.hpp"
#include "inbox/plan.hpp"

namespace rangecheck::app {
namespace {

struct Counts {
  std::size_t graded = 0, set_aside = 0, waiting = 0, unchanged = 0;
};

std::string line_of(const inbox::Planned& planned, Counts& counts) {
  if (!planned.why) {
    ++counts.unchanged;
    return "";
  }
  const std::string of = printable(planned.submission) + ": ";
  const std::string because = fmt::format(" ({})\n", inbox::told(*planned.why));
  if (!planned.error) {
    ++counts.graded;
    return of + "to be graded" + because;
  }
  ++(planned.waits ? counts.waiting : counts.set_aside);
  return fmt::format("{}{}: {}{}", of, planned.waits ? "to wait" : "to be set aside",
                     printable(to_string(*planned.error)), because);
}

}  // namespace

int dry_run(const inbox::Job& job, Telling& telling, ErrorForm form) {
  const auto plan = inbox::plan(job);
  if (!plan) return report_fault(plan.error(), form);
  Counts counts;
  std::string text;
  for (const auto& planned : *plan) text += line_of(planned, counts);
  telling.say(fmt::format("{} to grade, {} to set aside, {} to wait, {} unchanged", counts.graded,
                          counts.set_aside, counts.waiting, counts.unchanged));
  return print(text, counts.set_aside > 0 ? some_set_aside : all_graded);
}

}  // namespace rangecheck::app
