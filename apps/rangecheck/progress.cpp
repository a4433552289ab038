// SPDX-License-Identifier: MIT
#include "report/progress.hpp"

#include <memory>

#include "base/text.hpp"
#include "commands.hpp"
#include "inbox/inbox.hpp"
#include "print_options.hpp"

namespace rangecheck::app {
namespace {

/// What the parser collects.
struct Options {
  std::string student, out;
  PrintOptions print;
};

Error unknown_student(const std::string& student, const std::vector<std::string>& known) {
  const std::vector<std::string_view> ids(known.begin(), known.end());
  const std::string near = nearest(student, ids);
  return {Fault::bad_value,
          "there is no grade of " + rangecheck::quoted(student) + " in the history",
          {},
          near.empty() ? "name a student by the id of the roster" : "did you mean " + near + "?"};
}

std::string text_of(const Options& options, const std::vector<history::Course>& courses) {
  if (options.print.format == "json") return report::progress_json(options.student, courses);
  if (options.print.format == "csv")
    return report::progress_csv(options.student, courses, options.print.units);
  return report::progress_text(options.student, courses, options.print.units);
}

int progress(const Options& options) {
  const auto store = history::Store::open_existing(inbox::history_file(options.out));
  if (!store) return report_fault(store.error());
  const auto submissions = store->of_student(options.student);
  if (!submissions) return report_fault(submissions.error());
  if (submissions->empty()) {
    const auto known = store->students();
    if (!known) return report_fault(known.error());
    return report_fault(unknown_student(options.student, *known));
  }
  return print(text_of(options, history::courses_of(*submissions)), all_graded);
}

}  // namespace

Command add_progress(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser = app.add_subcommand("progress", "Say what changed for one student");
  parser->add_option("student", options->student, "Student by the id of the roster")
      ->required()
      ->option_text("STUDENT");
  parser->add_option("--out", options->out, "Folder that grade wrote to")
      ->required()
      ->option_text("DIR");
  add_print_options(*parser, options->print);
  return {parser, [options] { return progress(*options); }};
}

}  // namespace rangecheck::app
