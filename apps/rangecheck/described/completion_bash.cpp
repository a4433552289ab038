// SPDX-License-Identifier: MIT
#include "described/described.hpp"

namespace rangecheck::app {
namespace {

/// Needs neither the package bash-completion nor bash 5. Files are left to readline, which knows
/// how to quote them.
constexpr std::string_view script =
    R"sh(# bash completion of @name@, written by "@name@ completion bash".

# The commands that the command $1 has.
@function@_commands() {
  case $1 in
@commands@  esac
}

# The options that the command $1 has.
@function@_options() {
  case $1 in
@options@  esac
}

# What the value of option $2 of the command $1 is, or its word in place $2: nothing for a flag.
@function@_value() {
  case "$1 $2" in
@values@  esac
}

@function@() {
  local cur=${COMP_WORDS[COMP_CWORD]} command='@name@' place=1 ended='' kind='' before='' word i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; ++i)); do
    word=${COMP_WORDS[i]}
    if [[ -z $ended && $word == -- ]]; then
      ended=1
    elif [[ -z $ended && $word == -?* ]]; then
      kind=$(@function@_value "$command" "$word")
      [[ -z $kind ]] && continue
      # readline makes three words of --option=value.
      [[ ${COMP_WORDS[i + 1]} == = ]] && ((++i))
      ((i + 1 >= COMP_CWORD)) && break
      ((++i))
      kind=''
    elif [[ " $(@function@_commands "$command") " == *" $word "* ]]; then
      command+=" $word"
      place=1
    else
      ((++place))
    fi
  done
  [[ $cur == = ]] && cur=''
  if [[ -z $kind && -z $ended && $cur == --*=* ]]; then
    # One word, where = does not break words.
    kind=$(@function@_value "$command" "${cur%%=*}")
    before=${cur%%=*}=
    cur=${cur#*=}
  fi
  if [[ -z $kind && -z $ended && $cur == -* ]]; then
    COMPREPLY=($(compgen -W "$(@function@_options "$command")" -- "$cur"))
    return
  fi
  if [[ -z $kind ]]; then
    [[ $place == 1 && -z $ended ]] &&
      COMPREPLY=($(compgen -W "$(@function@_commands "$command")" -- "$cur"))
    kind=$(@function@_value "$command" "$place")
  fi
  case $kind in
    file) compopt -o default ;;
    folder) compopt -o dirnames ;;
    one-of\ *) COMPREPLY+=($(compgen -P "$before" -W "${kind#one-of }" -- "$cur")) ;;
  esac
}

complete -F @function@ @name@
)sh";

/// A word of the shell.
std::string word(std::string_view text) { return "'" + replaced(text, "'", R"('\'')") + "'"; }

std::string branch(const std::string& pattern, const std::string& printed) {
  return "    " + pattern + ") echo " + word(printed) + " ;;\n";
}

std::string kind_of(const DescribedOption& option) {
  if (!option.choices.empty()) return "one-of " + joined(option.choices, " ");
  switch (option.takes) {
    case Takes::nothing:
      return "";
    case Takes::word:
      return "word";
    case Takes::file:
      return "file";
    case Takes::folder:
      return "folder";
  }
  return "";
}

std::string values_of(const DescribedCommand& command) {
  std::string branches;
  for (const auto& option : command.options)
    for (const auto& name : option.names)
      if (const auto kind = kind_of(option); !kind.empty())
        branches += branch(word(command.name() + " " + name), kind);
  for (std::size_t i = 0; i < command.places.size(); ++i) {
    const auto& place = command.places[i];
    // Numbers have no sign, so that no option is taken for one.
    const std::string number = place.repeats ? "[0-9]*" : std::to_string(i + 1);
    branches += branch(word(command.name() + " ") + number, kind_of(place));
  }
  return branches;
}

}  // namespace

std::string bash_completion(const DescribedCommand& program) {
  std::string commands, options, values;
  for (const auto* command : all_of(program)) {
    std::vector<std::string> below, names;
    for (const auto& one : command->commands) below.push_back(one.words.back());
    for (const auto& option : command->options)
      names.insert(names.end(), option.names.begin(), option.names.end());
    if (!below.empty()) commands += branch(word(command->name()), joined(below, " "));
    options += branch(word(command->name()), joined(names, " "));
    values += values_of(*command);
  }
  std::string text(script);
  text = replaced(text, "@commands@", commands);
  text = replaced(text, "@options@", options);
  text = replaced(text, "@values@", values);
  text = replaced(text, "@function@", "_" + replaced(program.name(), "-", "_"));
  return replaced(text, "@name@", program.name());
}

}  // namespace rangecheck::app
