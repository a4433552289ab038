// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>
#include <vector>

#include "base/text.hpp"
#include "commands.hpp"
#include "inbox/inbox.hpp"
#include "report/report.hpp"

namespace rangecheck::app {
namespace {

/// What the parser collects.
struct Options {
  std::string inbox, profiles, roster, out, pseudonyms;
  unsigned workers = 0;
  std::string units = "in";
  std::string language = "en";
  std::string format = "table";
};

/// stderr may be mailed or kept by whatever starts the program, so it names submissions by id only.
void tell(const inbox::Progress& progress) {
  fmt::print(
      stderr, "rangecheck: {}/{} {}: {}\n", progress.done, progress.of,
      printable(progress.submission),
      progress.set_aside ? "set aside: " + printable(to_string(*progress.set_aside)) : "graded");
}

inbox::Job job_of(const Options& options) {
  inbox::Job job{.inbox = options.inbox,
                 .profiles = options.profiles,
                 .out = options.out,
                 .roster = std::nullopt,
                 .pseudonyms = std::nullopt,
                 .workers = options.workers,
                 .length_unit = options.units,
                 .language = options.language,
                 .on_progress = tell};
  if (!options.roster.empty()) job.roster = options.roster;
  if (!options.pseudonyms.empty()) job.pseudonyms = options.pseudonyms;
  return job;
}

/// The night as the asked-for data. JSON Lines are in order of id, set-aside ones in their place.
std::string text_of(const inbox::Night& night, const Options& options) {
  if (options.format == "csv") return report::csv_wide(night.graded, options.units);
  if (options.format == "table") return report::coach_table(night.graded, night.set_aside);
  std::string lines;
  auto set_aside = night.set_aside.begin();
  const auto set_aside_before = [&](const std::string* id) {
    for (; set_aside != night.set_aside.end() && (!id || set_aside->submission < *id); ++set_aside)
      lines += report::set_aside_json(*set_aside, std::nullopt);
  };
  for (const auto& graded : night.graded) {
    set_aside_before(&graded.submission);
    lines += report::result_json(graded, std::nullopt);
  }
  set_aside_before(nullptr);
  return lines;
}

int grade(const Options& options) {
  const auto night = inbox::run(job_of(options));
  if (!night) return report_fault(night.error());
  fmt::print(stderr, "rangecheck: {} graded, {} set aside\n", night->graded.size(),
             night->set_aside.size());
  return print(text_of(*night, options), night->set_aside.empty() ? all_graded : some_set_aside);
}

}  // namespace

Command add_grade(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser = app.add_subcommand("grade", "Measure, grade and report an inbox");
  parser->add_option("inbox", options->inbox, "Folder with the submissions")
      ->required()
      ->option_text("INBOX");
  parser->add_option("--profiles", options->profiles, "Folder with what you teach")
      ->required()
      ->option_text("DIR");
  parser->add_option("--roster", options->roster, "Table of your students")->option_text("FILE");
  parser->add_option("--out", options->out, "Folder for reports and tables")
      ->required()
      ->option_text("DIR");
  parser
      ->add_option("--pseudonyms", options->pseudonyms,
                   "Write pseudonyms for names and ids; FILE is their key")
      ->option_text("FILE");
  parser->add_option("--workers", options->workers, "Submissions at a time (0: one a core)")
      ->check(CLI::Range(0U, 1024U))
      ->option_text("N");
  parser->add_option("--units", options->units, "Lengths in reports and tables: in or cm")
      ->check(CLI::IsMember({"in", "cm"}))
      ->option_text("UNIT");
  const std::vector<std::string> languages(shipped_languages().begin(), shipped_languages().end());
  parser
      ->add_option("--language", options->language,
                   "Students' pages: en or de, where the roster doesn't say")
      ->check(CLI::IsMember(languages))
      ->option_text("LANGUAGE");
  parser->add_option("--format", options->format, "What to print: table, csv or jsonl")
      ->check(CLI::IsMember({"table", "csv", "jsonl"}))
      ->option_text("FORM");
  return {parser, [options] { return grade(*options); }};
}

}  // namespace rangecheck::app
