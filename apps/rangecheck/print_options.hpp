// SPDX-License-Identifier: MIT
// Options of the commands that print what they find, for people or programs.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace rangecheck::app {

/// What the parser collects.
struct PrintOptions {
  std::string units = "in";
  std::string format = "text";
};

/// Adds --units and --format.
inline void add_print_options(CLI::App& parser, PrintOptions& options) {
  parser.add_option("--units", options.units, "Lengths: in or cm")
      ->check(CLI::IsMember({"in", "cm"}))
      ->option_text("UNIT");
  parser.add_option("--format", options.format, "What to print: text, csv or json")
      ->check(CLI::IsMember({"text", "csv", "json"}))
      ->option_text("FORM");
}

}  // namespace rangecheck::app
