// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>

#include "base/publish.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "grade/profile_text.hpp"
#include "inbox/lint.hpp"
#include "inbox/model_golfers.hpp"
#include "telling.hpp"

namespace rangecheck::app {
namespace {

namespace fs = std::filesystem;

constexpr auto swings = {"full", "pitch", "chip", "bunker", "putt"};

/// What the parser collects, for all four.
struct Options {
  std::string profiles;
  std::vector<std::string> paths, what;
  std::string errors = "text", language;
  std::string style, id, base, inbox, roster, out;
  grade::NewProfile wanted;
  grade::Holding holding;
  unsigned workers = 0;
};

Error at_path(const std::string& path, std::string what, std::string remedy) {
  return {Fault::bad_value,
          std::move(what),
          {.file = printable(path), .line = {}, .frame = {}, .key = {}},
          std::move(remedy)};
}

/// The profiles folder that a file lies in: the nearest above it with a clubs.yaml.
std::optional<fs::path> folder_of(const fs::path& file) {
  std::error_code failed;
  for (fs::path folder = fs::absolute(file, failed).parent_path();; folder = folder.parent_path()) {
    if (fs::exists(folder / "clubs.yaml", failed)) return folder;
    if (folder == folder.parent_path()) return std::nullopt;
  }
}

std::string counted(std::size_t count, std::string_view one, std::string_view more) {
  return fmt::format("{} {}", count, count == 1 ? one : more);
}

/// Errors go where errors go, as grade would say them; advice and the sum are what was asked for.
int tell(const grade::Lint& found, ErrorForm form) {
  std::size_t errors = 0, advice = 0;
  std::string text;
  for (const auto& [error, refuses] : found.findings) {
    ++(refuses ? errors : advice);
    if (refuses) {
      report_fault(error, form);
    } else {
      Error said = error;
      said.what.insert(0, "advice: ");
      text += to_string(said) + "\n";
    }
  }
  text += fmt::format("{}, {} that can be chosen: {}, {}\n",
                      counted(found.files, "profile file", "profile files"), found.profiles,
                      counted(errors, "error", "errors"),
                      counted(advice, "piece of advice", "pieces of advice"));
  return print(text, errors > 0 ? bad_usage : all_graded);
}

int lint(const Options& options) {
  const ErrorForm form = options.errors == "json" ? ErrorForm::json : ErrorForm::text;
  std::error_code failed;
  const bool is_folder = options.paths.size() == 1 && fs::is_directory(options.paths[0], failed);
  if (is_folder) return tell(inbox::lint(options.paths[0], {}, options.language), form);
  const std::vector<fs::path> files(options.paths.begin(), options.paths.end());
  for (const auto& file : files)
    if (!fs::is_regular_file(file, failed))
      return report_fault(at_path(file.string(), "is no file", "name one folder, or files"), form);
  const auto folder =
      options.profiles.empty() ? folder_of(files[0]) : std::optional<fs::path>(options.profiles);
  if (!folder)
    return report_fault(at_path(options.paths[0], "lies in no folder with a clubs.yaml",
                                "say with --profiles what it belongs to"),
                        form);
  return tell(inbox::lint(*folder, files, options.language), form);
}

int show(const Options& options) {
  std::string id = options.what[0];
  if (options.what.size() == 2) {
    const auto found =
        grade::profile_for(options.profiles, options.what[0], options.what[1], options.style);
    if (!found) return report_fault(found.error());
    id = *found;
  }
  const auto text = grade::shown_profile(options.profiles, id);
  return text ? print(*text, all_graded) : report_fault(text.error());
}

/// The schema in the profiles folder, from where the file will be, if there is one.
std::optional<std::string> schema_from(const Options& options) {
  if (options.out.empty()) return std::nullopt;
  std::error_code failed;
  const fs::path schema =
      fs::weakly_canonical(options.profiles, failed) / "schemas" / "profile.schema.json";
  const fs::path folder =
      fs::weakly_canonical(fs::absolute(options.out, failed), failed).parent_path();
  if (!fs::exists(schema, failed)) return std::nullopt;
  return schema.lexically_relative(folder).generic_string();
}

int start(const Options& options) {
  grade::NewProfile wanted = options.wanted;
  if (const auto schema = schema_from(options)) wanted.schema = *schema;
  const auto text = grade::starter(options.profiles, wanted);
  if (!text) return report_fault(text.error());
  if (options.out.empty()) return print(*text, all_graded);
  std::error_code failed;
  if (fs::exists(fs::symlink_status(options.out, failed)))
    return report_fault(at_path(options.out, "is there already", "name a new file"));
  const auto written = publish(options.out, *text);
  return written ? all_graded : report_fault(written.error());
}

int fit(const Options& options) {
  Telling telling(Loudness::normal, ErrorForm::text);
  inbox::ModelJob job{.inbox = options.inbox,
                      .profiles = options.profiles,
                      .roster = std::nullopt,
                      .base = options.base,
                      .workers = options.workers,
                      .on_progress = [&](const auto& progress) { telling.progress(progress); }};
  if (!options.roster.empty()) job.roster = options.roster;
  const auto golfers = inbox::model_golfers(job);
  telling.end_of_bar();
  if (!golfers) return report_fault(golfers.error());
  telling.say(fmt::format("{} used, {} of another club or swing, {} set aside",
                          counted(golfers->submissions, "submission", "submissions"),
                          golfers->others, golfers->set_aside));
  const std::string id = options.id.empty() ? golfers->base.id + "-fitted" : options.id;
  const auto text = grade::model_profile(golfers->base, golfers->values,
                                         {.id = id,
                                          .style = options.style.empty() ? "fitted" : options.style,
                                          .holding = options.holding});
  if (!text) return report_fault(text.error());
  return print(*text, golfers->set_aside > 0 ? some_set_aside : all_graded);
}

void add_profiles(CLI::App& parser, Options& options, bool required) {
  parser.add_option("--profiles", options.profiles, "Folder with what you teach")
      ->required(required)
      ->option_text("DIR");
}

void add_lint(CLI::App& parser, Options& options) {
  parser.add_option("paths", options.paths, "A profiles folder, or files of profiles")
      ->required()
      ->option_text("FILE...");
  add_profiles(parser, options, false);
  parser.add_option("--errors", options.errors, "Errors on stderr: text, or json: a line each")
      ->check(CLI::IsMember({"text", "json"}))
      ->option_text("FORM");
  const auto languages = shipped_languages();
  parser.add_option("--language", options.language, "Advise on what has no translation: en or de")
      ->check(CLI::IsMember(std::vector<std::string>(languages.begin(), languages.end())))
      ->option_text("LANGUAGE");
}

void add_show(CLI::App& parser, Options& options) {
  parser.add_option("what", options.what, "A profile's id, or a club and a kind of swing")
      ->required()
      ->expected(1, 2)
      ->option_text("ID | CLUB SWING");
  add_profiles(parser, options, true);
  parser.add_option("--style", options.style, "Style, where club and swing are named")
      ->option_text("STYLE");
}

void add_fit(CLI::App& parser, Options& options) {
  parser.add_option("inbox", options.inbox, "Folder with submissions of model golfers")
      ->required()
      ->option_text("INBOX");
  add_profiles(parser, options, true);
  parser.add_option("--roster", options.roster, "Table of these golfers")->option_text("FILE");
  parser.add_option("--base", options.base, "Profile to extend, if they have no single one")
      ->option_text("ID");
  parser.add_option("--id", options.id, "Id of the new profile (the base's and -fitted)")
      ->option_text("ID");
  parser.add_option("--style", options.style, "Its style (fitted)")->option_text("STYLE");
  parser
      .add_option("--cover", options.holding.cover, "Share of such golfers that a band holds (0.9)")
      ->check(CLI::Range(0.5, 0.999))
      ->option_text("SHARE");
  parser
      .add_option("--confidence", options.holding.confidence,
                  "With which it holds that share at least (0.95)")
      ->check(CLI::Range(0.5, 0.999))
      ->option_text("PROBABILITY");
  parser.add_option("--workers", options.workers, "Submissions at a time (0: one a core)")
      ->option_text("N");
}

void add_new(CLI::App& parser, Options& options) {
  parser.add_option("id", options.wanted.id, "Id of the new profile")
      ->required()
      ->option_text("ID");
  parser.add_option("--club", options.wanted.club, "Club, or family of clubs")
      ->required()
      ->option_text("CLUB");
  parser.add_option("--swing", options.wanted.swing, "full, pitch, chip, bunker or putt")
      ->required()
      ->check(CLI::IsMember(swings))
      ->option_text("KIND");
  parser.add_option("--style", options.wanted.style, "Its style (its id)")->option_text("STYLE");
  parser
      .add_option("--extends", options.wanted.extends,
                  "Profile to begin with (that of the club and swing)")
      ->option_text("ID");
  add_profiles(parser, options, true);
  parser.add_option("--out", options.out, "File to write, which must not be there yet")
      ->option_text("FILE");
}

}  // namespace

Command add_profile(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser = app.add_subcommand("profile", "Check, show, fit or begin what you teach");
  parser->require_subcommand(1);
  CLI::App* lints = parser->add_subcommand("lint", "Say all that is wrong with profiles");
  add_lint(*lints, *options);
  CLI::App* shows =
      parser->add_subcommand("show", "Print a profile put together, with where each value stands");
  add_show(*shows, *options);
  CLI::App* fits = parser->add_subcommand(
      "fit", "Print a profile with bands from golfers who swing as you want");
  add_fit(*fits, *options);
  CLI::App* starts = parser->add_subcommand("new", "Print a file to begin a profile with");
  add_new(*starts, *options);
  return {parser, [=] {
            if (lints->parsed()) return lint(*options);
            if (shows->parsed()) return show(*options);
            if (fits->parsed()) return fit(*options);
            return start(*options);
          }};
}

}  // namespace rangecheck::app
