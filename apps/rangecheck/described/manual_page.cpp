// SPDX-License-Identifier: MIT
// man(7). A line of text never begins with a control character, hyphens of options are minus signs
// that can be searched for and copied, and an apostrophe stays what it is.
#include <cctype>

#include "base/text.hpp"
#include "described/described.hpp"

namespace rangecheck::app {
namespace {

constexpr std::size_t longest_line = 79;  // of the source: mandoc's own limit

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '\\':
        out += "\\e";
        break;
      case '-':
        out += "\\-";
        break;
      case '\'':
        out += "\\(aq";
        break;
      case '`':
        out += "\\(ga";
        break;
      case '^':
        out += "\\(ha";
        break;
      case '~':
        out += "\\(ti";
        break;
      case '"':
        out += "\\(dq";
        break;
      default:
        out += c;
    }
  }
  return out;
}

/// Words of escaped text on lines that no line's beginning makes a request of.
std::string filled(std::string_view text) {
  std::string out, line;
  for (const auto word : split(text, ' ')) {
    if (!line.empty() && line.size() + 1 + word.size() > longest_line) {
      out += line + "\n";
      line.clear();
    }
    if (!line.empty()) line += ' ';
    if (line.empty() && word.starts_with('.')) line += "\\&";
    line += word;
  }
  return out + line + "\n";
}

/// A command on one line of the page, and on as many of the source as it takes.
std::string unfilled(const std::string& text) {
  std::string out = filled(text);
  out.pop_back();
  return replaced(out, "\n", " \\\n") + "\n";
}

std::string bold(std::string_view text) { return "\\fB" + escaped(text) + "\\fR"; }
std::string italic(std::string_view text) { return "\\fI" + escaped(text) + "\\fR"; }

std::string title(std::string_view text) { return ".SH " + escaped(text) + "\n"; }

/// A tagged paragraph.
std::string tagged(const std::string& tag, const std::string& text) {
  return ".TP\n" + tag + "\n" + text;
}

std::string bold_list(const std::vector<std::string>& words) {
  std::vector<std::string> parts;
  for (const auto& word : words) parts.push_back(bold(word));
  return joined(parts, ", ");
}

/// As a sentence: descriptions have no full stop, except where they are several.
std::string sentence(std::string_view text) {
  return filled(escaped(text) + (text.empty() || text.back() == '.' ? "" : "."));
}

std::string tag_of(const DescribedOption& option, bool in_place) {
  if (in_place) return italic(option.value);
  return bold_list(option.names) + (option.value.empty() ? "" : " " + italic(option.value));
}

std::string text_of(const DescribedOption& option, bool in_place) {
  std::string text = sentence(option.description);
  if (!option.choices.empty()) text += filled("One of " + bold_list(option.choices) + ".");
  if (option.required && !in_place) text += "Must be given.\n";
  if (option.repeats) text += "May be given several times.\n";
  if (!option.excludes.empty())
    text += filled("Not together with " + bold_list(option.excludes) + ".");
  return text;
}

/// The command with what it must have, and a mark for what it may have.
std::string synopsis(const DescribedCommand& command) {
  std::string line = bold(command.name()) + " [" + italic("OPTIONS") + "]";
  for (const auto& option : command.options)
    if (option.required) line += " " + tag_of(option, false);
  for (const auto& place : command.places)
    line += place.required ? " " + italic(place.value) : " [" + italic(place.value) + "]";
  if (!command.commands.empty()) line += " " + italic("COMMAND");
  return filled(line);
}

std::string options_of(const DescribedCommand& command) {
  std::string text;
  for (const auto& place : command.places)
    text += tagged(tag_of(place, true), text_of(place, true));
  for (const auto& option : command.options)
    text += tagged(tag_of(option, false), text_of(option, false));
  return text;
}

/// "Grades golf swings." as what stands behind the name: no capital, no full stop.
std::string short_description(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
  if (text.ends_with('.')) text.pop_back();
  return escaped(text);
}

std::string stated(std::string_view heading, std::span<const Stated> all) {
  std::string text = title(heading);
  for (const auto& [name, what] : all) text += tagged(bold(name), sentence(what));
  return text;
}

std::string upper(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

/// Each command as a heading with its options.
std::string commands_of(const std::vector<const DescribedCommand*>& all) {
  std::string text = title("COMMANDS");
  for (const auto* command : all) {
    if (command == all.front()) continue;
    text += ".SS " + escaped(command->name()) + "\n" + sentence(command->description) +
            options_of(*command);
  }
  return text;
}

std::string examples_of(std::span<const Stated> examples) {
  std::string text = title("EXAMPLES");
  for (const auto& [command, what] : examples)
    text += (text.ends_with(".RE\n") ? ".PP\n" : "") + filled(escaped(what) + ":") +
            ".PP\n.RS\n.nf\n" + unfilled(bold(command)) + ".fi\n.RE\n";
  return text;
}

}  // namespace

std::string manual_page(const DescribedCommand& program, const ManualFacts& facts) {
  const auto all = all_of(program);
  const std::string name = program.name();
  std::string page = ".\\\" Written by \"" + name + " manual\".\n.TH " + upper(name) + " 1 " +
                     std::string(facts.date) + " \"" + name + " " + std::string(facts.version) +
                     "\" \"User Commands\"\n";
  page += title("NAME") + filled(name + " \\- " + short_description(program.description));
  page += title("SYNOPSIS");
  for (const auto* command : all) {
    if (!command->commands.empty()) continue;
    page += (page.ends_with("SYNOPSIS\n") ? "" : ".br\n") + synopsis(*command);
  }
  page += title("DESCRIPTION") + sentence(program.description);
  page += title("OPTIONS") + options_of(program);
  page += commands_of(all);
  page += stated("EXIT STATUS", facts.exit_codes);
  page += stated("FILES", facts.files);
  page += examples_of(facts.examples);
  page += title("SEE ALSO") + sentence(facts.see_also);
  return page;
}

}  // namespace rangecheck::app
