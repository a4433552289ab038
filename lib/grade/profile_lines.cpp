// SPDX-License-Identifier: MIT
#include "grade/profile_lines.hpp"

#include <fmt/format.h>

#include "grade/profile_text.hpp"

namespace rangecheck::grade {
namespace {

/// "[one, two]", on one line whatever its length, since a comment may follow.
std::string flow_list(const std::vector<std::string>& words) {
  std::string out = "[";
  for (const auto& word : words) {
    if (out.size() > 1) out += ", ";
    // In a flow, a comma or a bracket would end the word.
    const bool plain = word.find_first_of(",[]{}") == std::string::npos;
    out += plain ? yaml_scalar(word) : '"' + word + '"';
  }
  return out + "]";
}

/// What a check drives, as its own position names it: there an id alone is looked for first.
std::vector<std::string> driven_from(const CheckPart& check, const Known& known) {
  std::vector<std::string> ids = *check.drives;
  if (!check.name.position || *check.name.position == Position::address) return ids;
  for (auto& id : ids) {
    const auto named = find_subject(id, known);  // an id with its position names no subject
    if (named && named->rule && !named->rule->is_timing())
      id = std::string(id_of(Position::address)) + "/" + id;
  }
  return ids;
}

/// Writes the keys of one check in the order in which people read them.
class Lines {
 public:
  Lines(const CheckPart& check, const std::string& language) : check_(check), language_(language) {}

  void scalar(std::string_view key) {
    if (const auto* written = check_.written.find(key))
      add(key, yaml_scalar(written->text), *written);
  }
  void list(std::string_view key, const std::vector<std::string>& words) {
    if (const auto* written = check_.written.find(key)) add(key, flow_list(words), *written);
  }
  void sentence(std::string_view key, const std::optional<Written>& said) {
    const auto* written = check_.written.find(key);
    if (!written || !said) return;
    add(key, yaml_scalar(written->text), *written);
    if (said->language != language_) lines_.back().origin += ", in " + said->language;
  }
  std::vector<Line> take() { return std::move(lines_); }

 private:
  void add(std::string_view key, const std::string& value, const AsWritten& written) {
    lines_.push_back({std::string(key) + ": " + value, origin_of(written.place)});
  }

  const CheckPart& check_;
  const std::string& language_;
  std::vector<Line> lines_;
};

/// The section that a check stands in.
std::string_view section_of(const CheckName& name) {
  if (name.named.subject == Subject::observed) return "observed";
  if (name.named.subject == Subject::reading) return "readings";
  if (!name.position) return "tempo";
  return *name.position == Position::address ? "checks" : "positions";
}

}  // namespace

std::string yaml_scalar(const std::string& text) {
  YAML::Emitter out;
  out << text;
  return out.c_str();
}

std::vector<Line> lines_of(const CheckPart& check, const std::string& language,
                           const Known& known) {
  Lines lines(check, language);
  if (check.off.value_or(false)) {
    lines.scalar("off");
    return lines.take();
  }
  lines.scalar("title");
  lines.scalar("target");
  if (check.accept) lines.list("accept", *check.accept);
  lines.scalar("fade");
  lines.scalar("weight");
  if (check.drives) lines.list("drives", driven_from(check, known));
  lines.sentence("outside", check.low);
  if (!check.written.find("outside")) {
    lines.sentence("low", check.low);
    lines.sentence("high", check.high);
  }
  lines.sentence("inside", check.inside);
  lines.sentence("drill", check.drill);
  lines.sentence("caution", check.caution);
  return lines.take();
}

std::string sections_text(const std::vector<CheckPart>& checks,
                          const std::function<std::vector<std::string>(const CheckPart&)>& lines,
                          std::string_view mark) {
  std::string out;
  const auto line = [&](std::size_t indent, std::string_view text) {
    out += fmt::format("{}{:{}}{}\n", mark, "", indent, text);
  };
  std::string_view section;
  std::optional<Position> position;
  for (const auto& check : checks) {
    const auto under = lines(check);
    if (under.empty()) continue;
    const auto home = section_of(check.name);
    if (home != section) line(0, std::string(home) + ":");
    const bool placed = home == "positions";
    if (placed && (home != section || check.name.position != position))
      line(2, std::string(id_of(*check.name.position)) + ":");
    section = home;
    position = check.name.position;
    const std::size_t indent = placed ? 4 : 2;
    const bool flow = under.front().starts_with('{');
    line(indent, check.name.rule + (flow ? ": " + under.front() : ":"));
    if (!flow)
      for (const auto& one : under) line(indent + 2, one);
  }
  return out;
}

}  // namespace rangecheck::grade
