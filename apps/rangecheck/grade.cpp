// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <memory>
#include <vector>

#include "base/publish.hpp"
#include "base/read_file.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "dry_run.hpp"
#include "grade/surely_below.hpp"
#include "grade_stream.hpp"
#include "inbox/inbox.hpp"
#include "report/for_scripts.hpp"
#include "report/report.hpp"
#include "telling.hpp"

namespace rangecheck::app {
namespace {

/// Takes the place of an id.
constexpr std::string_view all_of_them = "all";

/// What the parser collects.
struct Options {
  std::string inbox, profiles, roster, out, pseudonyms;
  unsigned workers = 0;
  unsigned settle_s = 30;
  std::vector<std::string> redo;
  bool dry_run = false;
  std::string units = "in";
  std::string language = "en";
  std::string format = "table";
  std::string junit;
  std::optional<double> fail_below;
  std::string errors = "text";
  bool quiet = false, verbose = false;

  ErrorForm error_form() const { return errors == "json" ? ErrorForm::json : ErrorForm::text; }
  Loudness loudness() const {
    return quiet ? Loudness::quiet : verbose ? Loudness::verbose : Loudness::normal;
  }
};

inbox::Job job_of(const Options& options) {
  inbox::Job job{.inbox = options.inbox,
                 .profiles = options.profiles,
                 .out = options.out,
                 .roster = std::nullopt,
                 .pseudonyms = std::nullopt,
                 .workers = options.workers,
                 .length_unit = options.units,
                 .language = options.language,
                 .settle = std::chrono::seconds(options.settle_s)};
  if (std::ranges::find(options.redo, all_of_them) != options.redo.end())
    job.redo.emplace();
  else if (!options.redo.empty())
    job.redo = options.redo;
  if (!options.roster.empty()) job.roster = options.roster;
  if (!options.pseudonyms.empty()) job.pseudonyms = options.pseudonyms;
  return job;
}

/// One JSON document a line, in order of id; those that have no result in their place.
int print_lines(const inbox::Night& night, const Options& options) {
  std::vector<const report::SetAside*> others;
  for (const auto* all : {&night.set_aside, &night.waiting})
    for (const auto& one : *all) others.push_back(&one);
  std::ranges::sort(others, {}, &report::SetAside::submission);
  auto other = others.begin();
  std::string lines;
  const auto others_before = [&](const std::string* id) {
    for (; other != others.end() && (!id || (*other)->submission < *id); ++other)
      lines += report::set_aside_json(**other, std::nullopt);
  };
  for (const auto& graded : night.graded) {
    others_before(&graded.submission);
    const auto file = inbox::result_file(options.out, graded.submission);
    const auto document = read_file(file, printable(file.string()));
    const auto line = document ? report::on_one_line(*document) : std::nullopt;
    if (!line) {
      const Error damaged{Fault::io,
                          "can't be read again",
                          {.file = printable(file.string()), .line = {}, .frame = {}, .key = {}},
                          "run again with --redo all"};
      return report_fault(document ? damaged : document.error(), options.error_form());
    }
    lines += *line;
    if (print(lines, all_graded) != all_graded) return could_not_run;
    lines.clear();
  }
  others_before(nullptr);
  return print(lines, all_graded);
}

/// The night as the asked-for data.
int print_night(const inbox::Night& night, const Options& options) {
  if (options.format == "jsonl") return print_lines(night, options);
  if (options.format == "table")
    return print(report::coach_table(night.graded, night.set_aside, night.waiting), all_graded);
  const auto table = read_file(inbox::wide_table_file(options.out), "submissions.csv");
  return table ? print(*table, all_graded) : report_fault(table.error(), options.error_form());
}

/// Writes what CI reads where that was asked for; false, and says so, when that fails.
bool write_junit(const Options& options, const std::string& text) {
  if (options.junit.empty()) return true;
  const auto written = publish(options.junit, text);
  if (!written) report_fault(written.error(), options.error_form());
  return bool(written);
}

/// A device or a folder has that name, which a file can't take the place of.
std::optional<Error> refused_junit(const Options& options) {
  std::error_code failed;
  const auto found = std::filesystem::status(options.junit, failed);
  if (options.junit.empty() || !std::filesystem::exists(found) ||
      std::filesystem::is_regular_file(found))
    return std::nullopt;
  return Error{Fault::bad_value,
               "isn't a file",
               {.file = printable(options.junit), .line = {}, .frame = {}, .key = {}},
               "name a file for the XML"};
}

/// What there is to say of grades that are too low, and the exit code of a run that was.
int judge(const inbox::Night& night, const Options& options, Telling& telling) {
  int code = night.set_aside.empty() ? all_graded : some_set_aside;
  if (!options.fail_below) return code;
  for (const auto& graded : night.graded) {
    if (!grade::surely_below(graded.percent, graded.percent_uncertainty, *options.fail_below))
      continue;
    telling.below(graded, *options.fail_below);
    code = some_below;
  }
  return code;
}

/// What can't be asked for together or at all.
std::optional<Error> refused(const Options& options) {
  if (options.verbose && options.error_form() == ErrorForm::json)
    return Error{Fault::bad_value,
                 "--errors json leaves nothing for --verbose to say",
                 {},
                 "leave one of them out"};
  return refused_junit(options);
}

/// What `grade` is given in place of an inbox for records on standard input.
constexpr std::string_view standard_input = "-";

StreamOptions stream_options(const Options& options) {
  const inbox::Job job = job_of(options);
  return {{job.profiles, job.roster, job.workers},
          options.fail_below,
          options.loudness(),
          options.error_form()};
}

/// Throws what the parser would for options that can't go together.
void check_together(const CLI::App& parser, const Options& options) {
  if (options.inbox != standard_input) {
    if (options.out.empty()) throw CLI::RequiredError("--out");
    return;
  }
  for (const auto* name : {"--out", "--pseudonyms", "--junit", "--units", "--language", "--redo",
                           "--settle", "--dry-run"})
    if (parser.count(name) > 0)
      throw CLI::ValidationError(name, "grade - writes no pages and no files: leave it out");
  if (parser.count("--format") > 0 && options.format != "jsonl")
    throw CLI::ValidationError("--format", "grade - prints jsonl only");
}

int grade(const Options& options) {
  if (const auto error = refused(options)) return report_fault(*error, options.error_form());
  if (options.inbox == standard_input) return grade_stream(stream_options(options));
  Telling telling(options.loudness(), options.error_form());
  if (options.dry_run) return dry_run(job_of(options), telling, options.error_form());
  const auto began = std::chrono::steady_clock::now();
  report::RunFacts facts{
      .began = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()),
      .fail_below_percent = options.fail_below};
  // From here on no reader takes an earlier run's file for this one's, even if this one is killed.
  const Error not_ended{Fault::io, "the run has not ended", {}, "wait, or run again"};
  if (!write_junit(options, report::junit_of_no_run(not_ended, facts))) return could_not_run;

  inbox::Job job = job_of(options);
  job.on_progress = [&](const inbox::Progress& progress) {
    facts.took_each_s[std::string(progress.submission)] = progress.took_s;
    telling.progress(progress);
  };
  const auto night = inbox::run(job);
  facts.took_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  telling.end_of_bar();
  if (!night) {
    const int code = report_fault(night.error(), options.error_form());
    return write_junit(options, report::junit_of_no_run(night.error(), facts)) ? code
                                                                               : could_not_run;
  }
  int code = judge(*night, options, telling);
  telling.count(*night);
  if (!write_junit(options, report::junit(night->graded, night->set_aside, night->waiting, facts)))
    code = could_not_run;
  const int printed = print_night(*night, options);
  return printed == all_graded ? code : printed;
}

/// Empty where `word` is a number that a grade can be.
std::string why_no_percent(const std::string& word) {
  const auto percent = parse_number(word);
  if (percent && *percent >= 0 && *percent <= 100) return "";
  return rangecheck::quoted(word) + " is no number from 0 to 100";
}

/// Options for whatever starts the program and reads how it went.
void add_script_options(CLI::App& parser, Options& options) {
  parser
      .add_option("--fail-below", options.fail_below,
                  "Exit with 4 when a grade is surely below (its whole 95 % interval)")
      ->check(why_no_percent)
      ->option_text("PERCENT");
  parser.add_option("--junit", options.junit, "Write how it went as JUnit XML, for CI systems")
      ->option_text("FILE");
  parser
      .add_option("--errors", options.errors,
                  "Errors on stderr: text, or json: a line each and nothing else")
      ->check(CLI::IsMember({"text", "json"}))
      ->option_text("FORM");
  parser.add_flag("--dry-run", options.dry_run, "Only say what would be done, and why")
      ->excludes("--format", "--fail-below", "--junit");
  CLI::Option* quiet = parser.add_flag("--quiet", options.quiet, "Say only what went wrong");
  parser.add_flag("--verbose", options.verbose, "Say what becomes of each submission")
      ->excludes(quiet);
}

}  // namespace

Command add_grade(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser = app.add_subcommand("grade", "Measure, grade and report an inbox");
  parser
      ->add_option("inbox", options->inbox,
                   "Folder with the submissions, or - for records on stdin")
      ->required()
      ->option_text("INBOX");
  parser->add_option("--profiles", options->profiles, "Folder with what you teach")
      ->required()
      ->option_text("DIR");
  parser->add_option("--roster", options->roster, "Table of your students")->option_text("FILE");
  parser->add_option("--out", options->out, "Folder for reports and tables")->option_text("DIR");
  parser
      ->add_option("--pseudonyms", options->pseudonyms,
                   "Write pseudonyms for names and ids; FILE is their key")
      ->option_text("FILE");
  parser->add_option("--workers", options->workers, "Submissions at a time (0: one a core)")
      ->check(CLI::Range(0U, 1024U))
      ->option_text("N");
  parser
      ->add_option("--redo", options->redo,
                   "Grade this submission, or all, although nothing has changed")
      ->allow_extra_args(false)
      ->option_text("ID");
  parser
      ->add_option("--settle", options->settle_s,
                   "Seconds that what may be half an upload has to be left alone")
      ->check(CLI::Range(0U, 86'400U))
      ->option_text("SECONDS");
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
  add_script_options(*parser, *options);
  parser->final_callback([parser, options] { check_together(*parser, *options); });
  return {parser, [options] { return grade(*options); }};
}

}  // namespace rangecheck::app
