// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "base/publish.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "film_options.hpp"
#include "report/film_text.hpp"

namespace rangecheck::app {
namespace {

struct Options {
  FilmOptions film;
  std::string to = "jsonl";
  std::string out;
};

/// The last part of the path as the user wrote it; that of the folder for "folder/".
std::string name_of(const std::string& file) {
  const std::filesystem::path path(file);
  return printable((path.has_filename() ? path : path.parent_path()).filename().string());
}

std::size_t joints_in(const intake::Film& film) {
  LandmarkMap<bool> seen;
  for (const auto& frame : film.frames) {
    for (const auto& person : frame.people) {
      for (std::size_t i = 0; i < landmark_count; ++i) {
        if (person.image.values()[i] || person.space.values()[i]) seen.values()[i] = true;
      }
    }
  }
  return std::count_if(seen.values().begin(), seen.values().end(),
                       [](const auto& joint) { return joint.has_value(); });
}

/// What came in, and what of it has no place in a film.
void tell(const intake::Film& film) {
  const auto empty = std::count_if(film.frames.begin(), film.frames.end(),
                                   [](const auto& frame) { return frame.people.empty(); });
  fmt::print(stderr, "rangecheck: read as {}\n", printable(film.dialect));
  fmt::print(stderr,
             "rangecheck: kept: frames: {}, without people: {}, joints: {}; points that are no "
             "joint here, as most of the face, are left out\n",
             film.frames.size(), empty, joints_in(film));
  for (const auto& note : film.notes)
    fmt::print(stderr, "rangecheck: {}\n", printable(in_english(note)));
}

int convert(const Options& options) {
  const auto layouts = layouts_of(options.film.profiles);
  if (!layouts) return report_fault(layouts.error());
  const auto how = read_options(options.film, *layouts);
  if (!how) return report_fault(how.error());
  const auto texts = intake::read_landmark_files(options.film.file, name_of(options.film.file));
  if (!texts) return report_fault(texts.error());
  const auto film = intake::read_landmarks(*texts, *how);
  if (!film) return report_fault(with_options(film.error()));
  tell(*film);
  const std::string text =
      options.to == "csv" ? report::film_csv(*film) : report::film_jsonl(*film);
  if (options.out.empty()) return print(text, all_graded);
  const auto written = publish(options.out, text);
  return written ? all_graded : report_fault(written.error());
}

}  // namespace

Command add_convert(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser =
      app.add_subcommand("convert", "Write any landmark file in the plain form, or as a table");
  add_film_options(*parser, options->film);
  parser->add_option("--to", options->to, "What to write: jsonl (plain form) or csv")
      ->check(CLI::IsMember({"jsonl", "csv"}))
      ->option_text("FORM");
  parser->add_option("--out", options->out, "File to write instead of standard output")
      ->option_text("FILE");
  return {parser, [options] { return convert(*options); }};
}

}  // namespace rangecheck::app
