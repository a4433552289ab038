// SPDX-License-Identifier: MIT
// What the words in profile files may name, and the small readers that all of these files share.
#include "grade/vocabulary.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "grade/profile_file.hpp"
#include "grade/reading.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::grade {
namespace {

Error problem(std::string what, std::string remedy) {
  return {Fault::bad_profile, std::move(what), {}, std::move(remedy)};
}

/// "did you mean top/shoulder-turn?" for the id `word` that stood behind `prefix`.
std::string did_you_mean_behind(std::string_view prefix, std::string_view word,
                                const Known& known) {
  const std::string near = nearest(word, subject_ids(known));
  return near.empty() ? "" : "did you mean " + std::string(prefix) + near + "?";
}

}  // namespace

std::optional<Named> find_subject(std::string_view id, const Known& known) {
  const auto own = std::ranges::find(known.own, id, &measure::Rule::id);
  const auto* rule = own != known.own.end() ? *own : measure::find_rule(id);
  if (rule) return Named{Subject::measured, rule, rule->dimension, rule->title};
  if (const auto* kind = find_reading(id))
    return Named{Subject::reading, nullptr, kind->dimension, kind->title};
  if (known.observations.contains(std::string(id))) return Named{Subject::observed};
  return std::nullopt;
}

std::vector<std::string_view> subject_ids(const Known& known) {
  std::vector<std::string_view> ids;
  for (const auto* rule : measure::catalogue()) ids.push_back(rule->id);
  for (const auto* rule : known.own) ids.push_back(rule->id);
  for (const auto& kind : reading_kinds()) ids.push_back(kind.id);
  ids.insert(ids.end(), known.observations.begin(), known.observations.end());
  return ids;
}

CheckName name_check(std::string_view rule, const Named& named, std::optional<Position> position) {
  return {measure::check_id(rule, position), std::string(rule), position, named};
}

Result<CheckName> find_check(std::string_view text, Position here, const Known& known,
                             std::string_view unknown) {
  const auto slash = text.find('/');
  const bool placed = slash != std::string_view::npos;
  const auto prefix = text.substr(0, placed ? slash + 1 : 0);
  const auto word = text.substr(prefix.size());
  if (placed) {
    const auto found = find_position(text.substr(0, slash));
    if (!found)
      return problem(rangecheck::quoted(text.substr(0, slash)) + " is no position",
                     did_you_mean(text.substr(0, slash), position_words()));
    here = *found;
  }
  const auto named = find_subject(word, known);
  if (!named) return problem(std::string(unknown), did_you_mean_behind(prefix, word, known));
  if (!named->rule || named->rule->is_timing()) {
    if (!placed) return name_check(word, *named, std::nullopt);
    return problem(std::string(word) + " is of the whole swing", "write " + std::string(word));
  }
  const Positions at = named->rule->at;
  if (!placed && !at.has(here) && at.has(Position::address)) here = Position::address;
  if (at.has(here)) return name_check(word, *named, here);
  return problem(std::string(word) + " is not measured at " + std::string(id_of(here)),
                 "it is measured at " + to_string(at));
}

std::array<std::size_t, 3> order_of(const CheckName& name, const Known& known) {
  const auto group = [&]() -> std::size_t {
    if (name.position) return index_of(*name.position);
    return position_count + (name.named.subject == Subject::measured   ? 0
                             : name.named.subject == Subject::observed ? 1
                                                                       : 2);
  }();
  if (name.named.subject == Subject::reading) {
    const auto kinds = reading_kinds();
    const auto kind = std::ranges::find(kinds, std::string_view(name.rule), &ReadingKind::id);
    return {group, 0, static_cast<std::size_t>(kind - kinds.begin())};
  }
  if (!name.named.rule) return {group, 0, 0};
  // A coach's own measures follow the others of their region.
  const auto rules = measure::catalogue();
  auto place = static_cast<std::size_t>(std::ranges::find(rules, name.named.rule) - rules.begin());
  if (place == rules.size())
    place += std::ranges::find(known.own, name.named.rule) - known.own.begin();
  return {group, static_cast<std::size_t>(name.named.rule->region), place};
}

std::string to_string(Positions positions) {
  std::string out;
  for (std::size_t first = 0; first < position_count; ++first) {
    if (!positions.has(all_positions[first])) continue;
    std::size_t last = first;
    while (last + 1 < position_count && positions.has(all_positions[last + 1])) ++last;
    if (!out.empty()) out += ", ";
    out += id_of(all_positions[first]);
    if (last > first)
      out += (last == first + 1 ? ", " : " to ") + std::string(id_of(all_positions[last]));
    first = last;
  }
  return out;
}

std::span<const std::string_view> position_words() {
  static const auto words = [] {
    std::vector<std::string_view> all;
    for (const Position position : all_positions) all.push_back(id_of(position));
    for (const Position position : all_positions) all.push_back(alias_of(position));
    return all;
  }();
  return words;
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string near = nearest(word, candidates);
  return near.empty() ? "" : "did you mean " + near + "?";
}

std::optional<std::vector<std::string>> optional_words(yaml::Map& map, std::string_view key) {
  const YAML::Node found = map.node(key);
  if (!found) return std::nullopt;
  if (found.IsScalar()) return std::vector<std::string>{found.Scalar()};
  std::vector<std::string> words;
  const bool all_words =
      found.IsSequence() && std::ranges::all_of(found, [](const auto& n) { return n.IsScalar(); });
  if (!all_words) {
    map.fault(key, "should be a list of words", "write [one, two]");
    return std::nullopt;
  }
  for (const auto& item : found) words.push_back(item.Scalar());
  return words;
}

std::optional<Target> optional_target(yaml::Map& map, std::string_view key, Dimension wanted) {
  const auto written = map.optional_text(key);
  if (!written) return std::nullopt;
  const auto target = parse_target(*written, wanted);
  if (target) return *target;
  map.fault(key, target.error().what, target.error().remedy);
  return std::nullopt;
}

void require_version(yaml::Map& map) {
  if (map.number("version") != 1)
    map.fault("version", "this version of rangecheck reads version 1 only", "write `version: 1`");
}

std::string language_of(yaml::Map& map) {
  const std::string tag = map.optional_text("language").value_or(Written().language);
  if (!is_language_tag(tag))
    map.fault("language", rangecheck::quoted(tag) + " is no tag of a language",
              "write one as BCP 47 has them: en, de");
  return tag;
}

std::optional<Written> optional_written(yaml::Map& map, std::string_view key,
                                        const std::string& language) {
  auto text = map.optional_text(key);
  if (!text) return std::nullopt;
  return Written(*std::move(text), language);
}

std::string origin_of(const Place& place) {
  return place.line ? place.file + ":" + std::to_string(*place.line) : place.file;
}

AllWritten as_written(const YAML::Node& node, const std::string& file) {
  AllWritten::Keys out;
  if (!node.IsMap()) return {};
  for (const auto& entry : node) {
    if (entry.second.IsMap()) continue;
    out[entry.first.Scalar()] = {
        entry.second.IsScalar() ? entry.second.Scalar() : "",
        {.file = file, .line = entry.first.Mark().line + 1, .frame = {}, .key = {}}};
  }
  return AllWritten(std::move(out));
}

void finish(yaml::Map& map, Faults& faults) {
  auto found = map.faults();
  faults.insert(faults.end(), std::make_move_iterator(found.begin()),
                std::make_move_iterator(found.end()));
}

}  // namespace rangecheck::grade
