// SPDX-License-Identifier: MIT
#include "described/described.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace rangecheck::app {
namespace {

/// How help's words for values say that a path is wanted.
Takes taken_by(const std::string& value) {
  if (value.empty()) return Takes::nothing;
  if (value == "DIR" || value == "INBOX") return Takes::folder;
  if (value.starts_with("FILE")) return Takes::file;
  return Takes::word;
}

/// CLI11 describes a check for membership as "{in,cm}", after the name of the type.
std::vector<std::string> choices_of(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  const auto open = type.find(":{");
  const auto close = type.find('}', open);
  if (open == std::string::npos || close == std::string::npos) return {};
  std::vector<std::string> choices;
  for (const auto word : split(std::string_view(type).substr(open + 2, close - open - 2), ','))
    choices.emplace_back(word);
  return choices;
}

std::vector<std::string> names_of(const CLI::Option& option) {
  if (option.get_positional()) return {option.get_name(true)};
  std::vector<std::string> names;
  for (const auto& name : option.get_snames()) names.push_back("-" + name);
  for (const auto& name : option.get_lnames()) names.push_back("--" + name);
  return names;
}

DescribedOption described(const CLI::Option& option) {
  DescribedOption found;
  found.names = names_of(option);
  if (option.get_items_expected_max() > 0)
    found.value = option.get_option_text().empty() ? "VALUE" : option.get_option_text();
  found.description = option.get_description();
  found.takes = taken_by(found.value);
  found.choices = choices_of(option);
  found.required = option.get_required();
  found.repeats = option.get_expected_max() > 1 || option.get_allow_extra_args();
  return found;
}

/// The parser keeps them in a set by address; here they are in the order of their definition.
std::vector<std::string> excluded_by(const CLI::Option& option,
                                     const std::vector<const CLI::Option*>& all) {
  const auto others = option.get_excludes();
  std::vector<std::string> names;
  for (const auto* other : all) {
    if (others.count(const_cast<CLI::Option*>(other)) == 0) continue;
    const auto of_other = names_of(*other);
    names.insert(names.end(), of_other.begin(), of_other.end());
  }
  return names;
}

void add_options(const CLI::App& app, DescribedCommand& command) {
  const auto all = app.get_options();
  for (const auto* option : all) {
    if (option->get_group().empty()) continue;
    auto found = described(*option);
    found.excludes = excluded_by(*option, all);
    (option->get_positional() ? command.places : command.options).push_back(std::move(found));
  }
}

DescribedCommand described(const CLI::App& app, std::vector<std::string> words) {
  DescribedCommand command;
  command.words = std::move(words);
  command.words.push_back(app.get_name());
  command.description = app.get_description();
  add_options(app, command);
  for (const auto* below : app.get_subcommands(std::function<bool(const CLI::App*)>()))
    if (!below->get_group().empty()) command.commands.push_back(described(*below, command.words));
  return command;
}

void add_all(const DescribedCommand& command, std::vector<const DescribedCommand*>& all) {
  all.push_back(&command);
  for (const auto& below : command.commands) add_all(below, all);
}

}  // namespace

std::string DescribedCommand::name() const { return joined(words, " "); }

DescribedCommand described(const CLI::App& app) { return described(app, {}); }

std::vector<const DescribedCommand*> all_of(const DescribedCommand& command) {
  std::vector<const DescribedCommand*> all;
  add_all(command, all);
  return all;
}

std::string replaced(std::string_view text, std::string_view from, std::string_view to) {
  std::string out;
  std::size_t begin = 0;
  for (auto at = text.find(from); at != std::string_view::npos; at = text.find(from, begin)) {
    out += text.substr(begin, at - begin);
    out += to;
    begin = at + from.size();
  }
  return out += text.substr(begin);
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string out;
  for (const auto& part : parts) {
    if (&part != &parts.front()) out += between;
    out += part;
  }
  return out;
}

}  // namespace rangecheck::app
