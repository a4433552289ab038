// SPDX-License-Identifier: MIT
#include "described/described.hpp"

namespace rangecheck::app {
namespace {

constexpr std::string_view script =
    R"sh(# fish completion of @name@, written by "@name@ completion fish".

# Whether the line has come to the command of the words after $place, and to its word in that place:
# a number, a number and + for all from there, - for any.
function __@name@_at --argument-names place
    set -l commands @commands@
    set -l valued @valued@
    set -l words (commandline -opc)
    set -l at @name@
    set -l count 1
    set -l before flag
    set -l ended no
    for word in $words[2..]
        if test $before = valued
            set before flag
        else if test $ended = no; and test "$word" = --
            set ended yes
        else if test $ended = no; and string match -q -- '-?*' "$word"
            contains -- "$at $word" $valued; and set before valued
        else if contains -- "$at $word" $commands
            set at "$at $word"
            set count 1
        else
            set count (math $count + 1)
        end
    end
    test "$at" = "$argv[2..]"; or return 1
    switch $place
        case -
            return 0
        case '*+'
            test $count -ge (string trim -c + $place)
        case '*'
            test $count -eq $place
    end
end

complete -c @name@ -f
@lines@)sh";

std::string word(std::string_view text) {
  return "'" + replaced(replaced(text, "\\", "\\\\"), "'", "\\'") + "'";
}

/// What may stand for the value; nothing for a flag.
std::string value_of(const DescribedOption& option) {
  if (option.takes == Takes::nothing) return "";
  if (!option.choices.empty()) return " -x -a " + word(joined(option.choices, " "));
  switch (option.takes) {
    case Takes::file:
      return " -r -F";
    case Takes::folder:
      return " -x -a '(__fish_complete_directories)'";
    default:
      return " -x";
  }
}

std::string line(const std::string& program, const std::string& place,
                 const DescribedCommand& command, const std::string& rest) {
  return "complete -c " + program + " -n " +
         word("__" + program + "_at " + place + " " + command.name()) + rest + "\n";
}

std::string names_of(const DescribedOption& option) {
  std::string names;
  for (const auto& name : option.names)
    names += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  return names;
}

std::string lines_of(const std::string& program, const DescribedCommand& command) {
  std::string lines;
  for (const auto& below : command.commands)
    lines += line(program, "1", command,
                  " -a " + word(below.words.back()) + " -d " + word(below.description));
  for (const auto& option : command.options)
    lines += line(program, "-", command,
                  names_of(option) + value_of(option) + " -d " + word(option.description));
  for (std::size_t i = 0; i < command.places.size(); ++i) {
    const auto& place = command.places[i];
    if (place.takes == Takes::word && place.choices.empty()) continue;
    lines +=
        line(program, std::to_string(i + 1) + (place.repeats ? "+" : ""), command, value_of(place));
  }
  return lines;
}

}  // namespace

std::string fish_completion(const DescribedCommand& program) {
  const std::string name = program.name();
  std::vector<std::string> commands, valued;
  std::string lines;
  for (const auto* command : all_of(program)) {
    commands.push_back(word(command->name()));
    for (const auto& option : command->options)
      for (const auto& one : option.names)
        if (!option.value.empty()) valued.push_back(word(command->name() + " " + one));
    lines += lines_of(name, *command);
  }
  std::string text = replaced(script, "@commands@", joined(commands, " "));
  text = replaced(text, "@valued@", joined(valued, " "));
  text = replaced(text, "@lines@", lines);
  return replaced(text, "@name@", name);
}

}  // namespace rangecheck::app
