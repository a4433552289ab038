// SPDX-License-Identifier: MIT
// rangecheck: parse, fill a job, call the library, give its outcome as an exit code.
#include <fmt/format.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <exception>

#include "commands.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::app {

int report_fault(const Error& error) {
  fmt::print(stderr, "rangecheck: {}\n", to_string(error));
  return error.fault == Fault::io ? could_not_run : bad_usage;
}

int print(std::string_view text, int exit_code) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if ((written && std::fflush(stdout) == 0) || errno == EPIPE) return exit_code;
  fmt::print(stderr, "rangecheck: can't write to standard output\n");
  return could_not_run;
}

namespace {

constexpr auto footer =
    "Exit codes:\n"
    "  0  everything asked for was done\n"
    "  1  some submissions were set aside; the rest was graded\n"
    "  2  the command, a profile or the roster is wrong; nothing was graded\n"
    "  3  could not run: inbox not readable, output not writable, disk full";

int run(int argc, char** argv) {
  CLI::App app("Grades golf swings from landmark files against what their coach teaches.",
               "rangecheck");
  app.set_version_flag("--version", std::string(inbox::version()));
  app.footer(footer);
  app.require_subcommand(1);
  const Command commands[] = {add_grade(app),   add_rules(app),   add_inspect(app),
                              add_convert(app), add_layouts(app), add_progress(app),
                              add_forget(app)};
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    // CLI11 has codes of its own for each way to be wrong; ours has one.
    return app.exit(error) == 0 ? all_graded : bad_usage;
  }
  for (const auto& [parser, action] : commands)
    if (parser->parsed()) return action();
  return bad_usage;
}

}  // namespace
}  // namespace rangecheck::app

int main(int argc, char** argv) {
  std::signal(SIGPIPE, SIG_IGN);  // a closed pipe shows as EPIPE, and is no error
  try {
    return rangecheck::app::run(argc, argv);
  } catch (const std::exception& thrown) {
    fmt::print(stderr, "rangecheck: {}\n", thrown.what());
    return rangecheck::app::could_not_run;
  }
}
