// SPDX-License-Identifier: MIT
#include "report/agreement.hpp"

#include <memory>

#include "commands.hpp"
#include "inbox/gradings.hpp"
#include "print_options.hpp"

namespace rangecheck::app {
namespace {

/// What the parser collects.
struct Options {
  std::string first, second;
  PrintOptions print;
};

std::string text_of(const Options& options, const history::Comparison& both) {
  const report::Compared names{options.first, options.second};
  if (options.print.format == "json") return report::agreement_json(names, both);
  if (options.print.format == "csv") return report::agreement_csv(both, options.print.units);
  return report::agreement_text(names, both, options.print.units);
}

Error nothing_in_both() {
  return {
      Fault::bad_value,
      "there is no submission that both have",
      {},
      "submissions are matched by id: see whether both have the same ids, and pseudonyms of one "
      "key or none"};
}

int agreement(const Options& options) {
  const auto gradings = inbox::read_gradings(options.first, options.second);
  if (!gradings) return report_fault(gradings.error());
  const auto both = history::compare(gradings->first, gradings->second);
  if (both.in_both == 0) return report_fault(nothing_in_both());
  return print(text_of(options, both), all_graded);
}

}  // namespace

Command add_agreement(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser = app.add_subcommand(
      "agreement", "Say how far two gradings, or a grading and your own readings, agree");
  constexpr auto what = "Folder that grade wrote to, or a table of readings (CSV)";
  parser->add_option("first", options->first, what)->required()->option_text("FILE");
  parser->add_option("second", options->second, what)->required()->option_text("FILE");
  add_print_options(*parser, options->print);
  return {parser, [options] { return agreement(*options); }};
}

}  // namespace rangecheck::app
