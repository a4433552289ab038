// SPDX-License-Identifier: MIT
#include "inbox/inspect.hpp"

#include <memory>

#include "commands.hpp"
#include "film_options.hpp"

namespace rangecheck::app {
namespace {

/// What the parser collects.
struct Options {
  FilmOptions film;
  std::string view, hand = "right", swing = "full";
  double rate_hz = 0;
  bool json = false;
};

std::optional<intake::View> view_of(const std::string& name) {
  for (const auto view : {intake::View::face_on, intake::View::down_the_line})
    if (intake::name_of(view) == name) return view;
  return std::nullopt;
}

int inspect(const Options& options) {
  const auto layouts = layouts_of(options.film.profiles);
  if (!layouts) return report_fault(layouts.error());
  auto how = read_options(options.film, *layouts);
  if (!how) return report_fault(how.error());
  how->handedness = options.hand == "left" ? intake::Handedness::left : intake::Handedness::right;
  const auto filming = options.film.profiles.empty() ? grade::shipped_filming()
                                                     : grade::load_filming(options.film.profiles);
  if (!filming) return report_fault(filming.error());
  inbox::InspectJob job{.file = options.film.file,
                        .how = *how,
                        .view = view_of(options.view),
                        .rate_hz = std::nullopt,
                        .swing = options.swing,
                        .filming = *filming};
  if (options.rate_hz > 0) job.rate_hz = options.rate_hz;
  const auto inspection = inbox::inspect(job);
  if (!inspection) return report_fault(with_options(inspection.error()));
  return print(
      options.json ? report::inspection_json(*inspection) : report::inspection_text(*inspection),
      all_graded);
}

}  // namespace

Command add_inspect(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser = app.add_subcommand(
      "inspect", "Say what a landmark file is, how well it was filmed, and what it can show");
  add_film_options(*parser, options->film);
  parser->add_option("--view", options->view, "face-on or down-the-line, if the feet do not tell")
      ->check(CLI::IsMember({"face-on", "down-the-line"}))
      ->option_text("VIEW");
  parser->add_option("--hand", options->hand, "The golfer's: right or left")
      ->check(CLI::IsMember({"right", "left"}))
      ->option_text("HAND");
  parser->add_option("--rate", options->rate_hz, "Pictures a second of the real scene")
      ->check(CLI::Range(1.0, 100000.0))
      ->option_text("HZ");
  parser->add_option("--swing", options->swing, "full, pitch, chip, bunker or putt")
      ->check(CLI::IsMember({"full", "pitch", "chip", "bunker", "putt"}))
      ->option_text("KIND");
  parser->add_flag("--json", options->json, "Print one JSON document");
  return {parser, [options] { return inspect(*options); }};
}

}  // namespace rangecheck::app
