// SPDX-License-Identifier: MIT
#include "build_facts.hpp"
#include "commands.hpp"
#include "described/described.hpp"
#include "inbox/inbox.hpp"
#include "stated.hpp"

namespace rangecheck::app {
namespace {

int manual(const CLI::App& app) {
  const ManualFacts facts{.version = inbox::version(),
                          .date = version_date,
                          .exit_codes = exit_codes,
                          .files = files_that_come_out,
                          .examples = examples,
                          .see_also = see_also};
  return print(manual_page(described(app), facts), all_graded);
}

}  // namespace

Command add_manual(CLI::App& app) {
  CLI::App* parser = app.add_subcommand("manual", "Print the manual page, for man or mandoc");
  return {parser, [&app] { return manual(app); }};
}

}  // namespace rangecheck::app
