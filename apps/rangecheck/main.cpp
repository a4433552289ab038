// SPDX-License-Identifier: MIT
// rangecheck: parse, fill a job, call the library, give its outcome as an exit code.
#include <fmt/format.h>
#include <malloc.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <exception>
#include <string_view>

#include "commands.hpp"
#include "stated.hpp"
#include "telling.hpp"
#include "version.hpp"

namespace rangecheck::app {

int report_fault(const Error& error) { return report_fault(error, ErrorForm::text); }

namespace {

bool is_written(std::string_view text) {
  return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() &&
         std::fflush(stdout) == 0;
}

}  // namespace

int print(std::string_view text, int exit_code) {
  if (is_written(text) || errno == EPIPE) return exit_code;
  fmt::print(stderr, "rangecheck: can't write to standard output\n");
  return could_not_run;
}

std::optional<Error> print_line(std::string_view line) {
  if (is_written(line)) return std::nullopt;
  return Error{
      Fault::io,
      errno == EPIPE ? "nobody reads standard output any more" : "can't write to standard output",
      {},
      ""};
}

namespace {

std::string footer() {
  std::string text = "Exit codes:";
  for (const auto& [code, meaning] : exit_codes) text += fmt::format("\n  {}  {}", code, meaning);
  return text;
}

/// Whether errors are to be JSON, also where the rest of the command is wrong and was not parsed.
ErrorForm error_form(int argc, char** argv) {
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    if (word == "--errors=json") return ErrorForm::json;
    if (word == "--errors" && i + 1 < argc && std::string_view(argv[i + 1]) == "json")
      return ErrorForm::json;
  }
  return ErrorForm::text;
}

int report_parse_error(const CLI::App& app, const CLI::ParseError& error, ErrorForm form) {
  const bool is_help = error.get_exit_code() == 0;
  if (!is_help && form == ErrorForm::json)
    return report_fault({Fault::bad_value, error.what(), {}, "see rangecheck --help"}, form);
  // CLI11 has codes of its own for each way to be wrong; ours has one.
  return app.exit(error) == 0 ? all_graded : bad_usage;
}

/// Films come and go by the thousand: the blocks that hold one whole go back to the system with it,
/// so that a night takes the memory of its largest films and not of all their gaps. By itself the C
/// library would keep such blocks once it has seen one freed.
void give_memory_back() {
#ifdef __GLIBC__
  constexpr int whole_film_bytes = 1 << 20, kept_bytes = 4 << 20;
  ::mallopt(M_MMAP_THRESHOLD, whole_film_bytes);
  ::mallopt(M_TRIM_THRESHOLD, kept_bytes);
#endif
}

int run(int argc, char** argv) {
  give_memory_back();
  CLI::App app("Grades golf swings from landmark files against what their coach teaches.",
               "rangecheck");
  app.set_version_flag("--version", version_text,
                       "Print the version and how it was built, and exit");
  app.footer(footer());
  app.require_subcommand(1);
  const Command commands[] = {add_grade(app),   add_rules(app),   add_inspect(app),
                              add_convert(app), add_layouts(app), add_progress(app),
                              add_forget(app),  add_pack(app),    add_agreement(app),
                              add_profile(app), add_manual(app),  add_completion(app)};
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return report_parse_error(app, error, error_form(argc, argv));
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
    using namespace rangecheck;
    return app::report_fault({Fault::io, thrown.what(), {}, ""}, app::error_form(argc, argv));
  }
}
