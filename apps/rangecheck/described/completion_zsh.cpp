// SPDX-License-Identifier: MIT
#include "described/described.hpp"

namespace rangecheck::app {
namespace {

constexpr std::string_view script = R"sh(#compdef @name@
# zsh completion of @name@, written by "@name@ completion zsh".

@functions@
# Read by compinit as the function itself, or sourced.
if [[ $funcstack[1] == _@name@ ]]; then
  _@name@ "$@"
else
  compdef _@name@ @name@
fi
)sh";

/// A command that has commands: which of them, and then what that one wants.
constexpr std::string_view branching = R"sh(  local curcontext=$curcontext state line
  typeset -A opt_args
  local -a commands=(
@list@  )
  _arguments -C -S@specs@ \
    '1: :->command' \
    '*:: :->words'
  case $state in
    command) _describe -t commands command commands ;;
    words)
      curcontext="${curcontext%:*}-$line[1]:"
      case $line[1] in
@branches@      esac
      ;;
  esac
)sh";

std::string quoted_word(std::string_view text) {
  return "'" + replaced(text, "'", R"('\'')") + "'";
}

/// Text between the brackets, or as the name, of what _arguments reads.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == '[' || c == ']' || c == ':') out += '\\';
    out += c;
  }
  return out;
}

std::string function_of(const DescribedCommand& command) {
  return "_" + joined(command.words, "_");
}

/// ":DIR:_files -/"; nothing for a flag.
std::string value_spec(const DescribedOption& option) {
  if (option.takes == Takes::nothing) return "";
  const std::string what = ":" + escaped(option.value) + ":";
  if (!option.choices.empty()) return what + "(" + joined(option.choices, " ") + ")";
  switch (option.takes) {
    case Takes::file:
      return what + "_files";
    case Takes::folder:
      return what + "_files -/";
    default:
      return what + " ";
  }
}

/// A line for each name; who has given one needs no other, nor those that it excludes.
std::string option_specs(const DescribedOption& option) {
  std::string specs;
  for (const auto& name : option.names) {
    std::vector<std::string> others = option.excludes;
    if (!option.repeats) others.insert(others.end(), option.names.begin(), option.names.end());
    specs +=
        " \\\n    " + quoted_word((others.empty() ? "" : "(" + joined(others, " ") + ")") +
                                  (option.repeats ? "*" : "") + name +
                                  (option.value.empty() || !name.starts_with("--") ? "" : "=") +
                                  "[" + escaped(option.description) + "]" + value_spec(option));
  }
  return specs;
}

std::string specs_of(const DescribedCommand& command) {
  std::string specs;
  for (const auto& option : command.options) specs += option_specs(option);
  if (!command.commands.empty()) return specs;
  for (std::size_t i = 0; i < command.places.size(); ++i) {
    const auto& place = command.places[i];
    specs += " \\\n    " + quoted_word((place.repeats ? "*" : std::to_string(i + 1)) +
                                       (place.required ? "" : ":") + value_spec(place));
  }
  return specs;
}

std::string body_of(const DescribedCommand& command) {
  if (command.commands.empty()) return "  _arguments -S" + specs_of(command) + "\n";
  std::string list, branches;
  for (const auto& below : command.commands) {
    const std::string& name = below.words.back();
    list += "    " + quoted_word(replaced(name, ":", "\\:") + ":" + below.description) + "\n";
    branches += "        " + quoted_word(name) + ") " + function_of(below) + " ;;\n";
  }
  std::string body = replaced(branching, "@list@", list);
  body = replaced(body, "@specs@", specs_of(command));
  return replaced(body, "@branches@", branches);
}

}  // namespace

std::string zsh_completion(const DescribedCommand& program) {
  std::string functions;
  for (const auto* command : all_of(program))
    functions += function_of(*command) + "() {\n" + body_of(*command) + "}\n\n";
  return replaced(replaced(script, "@functions@", functions), "@name@", program.name());
}

}  // namespace rangecheck::app
