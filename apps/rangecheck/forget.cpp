// SPDX-License-Identifier: MIT
#include "inbox/forget.hpp"

#include <fmt/format.h>

#include <memory>

#include "base/text.hpp"
#include "commands.hpp"

namespace rangecheck::app {
namespace {

/// What the parser collects.
struct Options {
  std::string student, out, pseudonyms;
  bool dry_run = false;
};

using Paths = std::vector<std::filesystem::path>;

/// A line a path, as it stands below the output folder.
std::string lines(const Paths& paths, const Options& options, std::string_view what = "") {
  std::string text;
  for (const auto& path : paths)
    text += fmt::format("  {}{}\n", printable(path.lexically_relative(options.out).string()), what);
  return text;
}

std::string counted(std::size_t count, std::string_view what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string removed_text(const inbox::Forgotten& forgotten, const Options& options) {
  const auto& traces = forgotten.traces;
  std::string text;
  for (const auto& folder : traces.folders) text += lines(folder.files, options);
  text += lines(traces.set_aside, options);
  for (const auto& table : traces.tables)
    text += lines({table.file}, options, ": " + counted(table.removed, "row"));
  if (traces.grades > 0)
    text += fmt::format("  history.sqlite: {}\n", counted(traces.grades, "grade"));
  if (forgotten.key_lines > 0)
    text += fmt::format("  the key of the pseudonyms: {}\n", counted(forgotten.key_lines, "line"));
  text += lines(traces.whole, options,
                ": whole, for it holds everybody; the next grade writes it again");
  text += lines(traces.leftovers, options, ": left by a run that was killed");
  return text;
}

std::string kept_text(const inbox::Traces& traces, const Options& options) {
  std::string text;
  for (const auto& folder : traces.folders)
    text += lines(folder.foreign, options, ": was not written by rangecheck");
  text += lines(traces.doubtful, options, ": may be of this student; look, and remove it yourself");
  return text;
}

std::string text_of(const inbox::Forgotten& forgotten, const Options& options) {
  const std::string kept = kept_text(forgotten.traces, options);
  const std::string removed = removed_text(forgotten, options);
  std::string text =
      fmt::format("{}, {}\n{}", options.student, options.dry_run ? "would be removed" : "removed",
                  removed.empty() ? "  nothing\n" : removed);
  if (!kept.empty()) text += "left as it is\n" + kept;
  text +=
      "not looked at\n"
      "  the inbox and the roster: a submission that is still there is graded again\n"
      "  profiles, copies, backups, and what was sent\n";
  if (options.pseudonyms.empty())
    text += "  a key of pseudonyms: with --pseudonyms FILE its lines go as well\n";
  return text;
}

int forget(const Options& options) {
  inbox::Forgetting what{.student = options.student,
                         .out = options.out,
                         .pseudonyms = std::nullopt,
                         .only_look = options.dry_run};
  if (!options.pseudonyms.empty()) what.pseudonyms = options.pseudonyms;
  const auto forgotten = inbox::forget(what);
  if (!forgotten) return report_fault(forgotten.error());
  return print(text_of(*forgotten, options), all_graded);
}

}  // namespace

Command add_forget(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser =
      app.add_subcommand("forget", "Remove one student from the history and all outputs");
  parser->add_option("student", options->student, "Student by the id of the tables")
      ->required()
      ->option_text("STUDENT");
  parser->add_option("--out", options->out, "Folder that grade wrote to")
      ->required()
      ->option_text("DIR");
  parser
      ->add_option("--pseudonyms", options->pseudonyms,
                   "Key of the pseudonyms, to lose the student's lines as well")
      ->option_text("FILE");
  parser->add_flag("--dry-run", options->dry_run, "Only say what would be removed");
  return {parser, [options] { return forget(*options); }};
}

}  // namespace rangecheck::app
