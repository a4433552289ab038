// SPDX-License-Identifier: MIT
// The command line as data, read from the parser's own definitions: manual and completions are
// printed from it, so that they can't say anything else than the parser does.
#pragma once

#include <CLI/CLI.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rangecheck::app {

/// What the word after an option, or in a place of its own, is.
enum class Takes { nothing, word, file, folder };

/// An option, or a word in a place of its own.
struct DescribedOption {
  std::vector<std::string> names;  ///< "-h", "--help"; the name alone of a word in a place
  std::string value;               ///< as help calls it: "DIR"; empty for a flag
  std::string description;
  Takes takes = Takes::nothing;
  std::vector<std::string> choices;   ///< the only values that the option's own check lets through
  std::vector<std::string> excludes;  ///< names of options that can't go with it
  bool required = false;
  bool repeats = false;  ///< may be given several times
};

/// A command with its commands. Hidden ones are left out.
struct DescribedCommand {
  std::vector<std::string> words;  ///< "rangecheck", "grade"
  std::string description;
  std::vector<DescribedOption> options, places;
  std::vector<DescribedCommand> commands;

  std::string name() const;  ///< "rangecheck grade"
};

DescribedCommand described(const CLI::App& app);

/// `command` and all below it, each before its own.
std::vector<const DescribedCommand*> all_of(const DescribedCommand& command);

/// An exit code, or a file that comes out, with what is said of it.
struct Stated {
  std::string_view name, what;
};

/// What a manual tells that the parser does not know.
struct ManualFacts {
  std::string_view version;
  std::string_view date;  ///< of this version, like 2026-11-28
  std::span<const Stated> exit_codes, files, examples;
  std::string_view see_also;
};

/// A manual page in the language of troff's man macros.
std::string manual_page(const DescribedCommand& program, const ManualFacts& facts);

/// Scripts that the shells load. They need nothing but their shell.
std::string bash_completion(const DescribedCommand& program);
std::string zsh_completion(const DescribedCommand& program);
std::string fish_completion(const DescribedCommand& program);

/// `text` with every `from` in it made `to`.
std::string replaced(std::string_view text, std::string_view from, std::string_view to);

/// The parts with `between` between them.
std::string joined(const std::vector<std::string>& parts, std::string_view between);

}  // namespace rangecheck::app
