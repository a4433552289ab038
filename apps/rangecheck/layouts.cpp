// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>

#include "base/read_file.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "film_options.hpp"
#include "report/layouts_page.hpp"

namespace rangecheck::app {
namespace {

struct Options {
  std::vector<std::string> files;
  std::string profiles;
};

Result<intake::Layout> read_file_of(const std::string& file) {
  const std::string name = printable(file);
  const auto text = read_file(file, name);
  if (!text) return text.error();
  return intake::read_layout(*text, name);
}

/// Every file is looked at, whatever is wrong with those before it.
int check(const std::vector<std::string>& files) {
  std::string pages;
  int exit_code = all_graded;
  for (const auto& file : files) {
    const auto layout = read_file_of(file);
    if (!layout) {
      exit_code = report_fault(layout.error());
      continue;
    }
    pages += (pages.empty() ? "" : "\n") + report::layout_page(*layout);
  }
  return print(pages, exit_code);
}

int layouts(const Options& options) {
  if (!options.files.empty()) return check(options.files);
  const auto known = layouts_of(options.profiles);
  return known ? print(report::layouts_table(*known), all_graded) : report_fault(known.error());
}

}  // namespace

Command add_layouts(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser =
      app.add_subcommand("layouts", "List the point sets that are known, or check files of them");
  parser->add_option("files", options->files, "Layout files to check")->option_text("FILE...");
  parser
      ->add_option("--profiles", options->profiles, "Folder with point sets of your own (layouts/)")
      ->option_text("DIR");
  return {parser, [options] { return layouts(*options); }};
}

}  // namespace rangecheck::app
