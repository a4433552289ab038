// SPDX-License-Identifier: MIT
#include "grade/profile_file.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"

namespace rangecheck::grade {
namespace {

constexpr auto swings =
    std::to_array<std::string_view>({"full", "pitch", "chip", "bunker", "putt"});

/// A section of a profile, and what its keys name.
struct Section {
  std::string_view key;
  std::string_view kind;
  Subject subject;
  std::optional<Position> position;  ///< of its measures
};
constexpr auto sections = std::to_array<Section>({
    {"checks", "measure", Subject::measured, Position::address},
    {"tempo", "time", Subject::measured, std::nullopt},
    {"readings", "reading", Subject::reading, std::nullopt},
    {"observed", "observation", Subject::observed, std::nullopt},
});

/// The section that can hold what is named so.
std::string home_of(const Named& named) {
  if (named.rule && !named.rule->is_timing())
    return named.rule->at.has(Position::address) ? "checks" : "positions";
  const auto home = std::ranges::find_if(sections, [&](const Section& section) {
    return section.subject == named.subject && !section.position;
  });
  return std::string(home->key);
}

bool holds(const Section& section, const Named& named) {
  if (named.subject != section.subject) return false;
  return !named.rule || named.rule->is_timing() == !section.position;
}

/// The remedy for a word that its section does not know.
std::string elsewhere(std::string_view id, const Known& known) {
  const auto slash = id.find('/');
  const auto check = find_check(id, Position::address, known, "");
  if (slash != std::string_view::npos && check && check->position)
    return "put " + check->rule + " under positions: " + std::string(id_of(*check->position)) + ":";
  return did_you_mean(id, subject_ids(known));
}

/// What the key `id` of a section names, or why it can't stand there.
Result<CheckName> name_in(const Section& section, std::string_view id, const Place& place,
                          const Known& known) {
  const auto error = [&](std::string what, std::string remedy) {
    return Error{Fault::bad_profile, std::move(what), place, std::move(remedy)};
  };
  const auto named = find_subject(id, known);
  if (!named) return error("there is no such " + std::string(section.kind), elsewhere(id, known));
  if (!holds(section, *named)) {
    const std::string remedy = "put it under " + home_of(*named) + ":";
    if (section.subject != Subject::observed)
      return error("there is no such " + std::string(section.kind), remedy);
    // A measure's id must not name words as well.
    return error(named->rule ? "is the name of a measure" : "is the name of a reading", remedy);
  }
  if (section.position && !named->rule->at.has(*section.position))
    return error("is not measured at " + std::string(id_of(*section.position)),
                 "it is measured at " + to_string(named->rule->at));
  return name_check(id, *named, section.position);
}

std::optional<std::vector<std::string>> read_drives(yaml::Map& map, Position here,
                                                    const Known& known) {
  auto ids = optional_words(map, "drives");
  if (!ids) return ids;
  for (auto& id : *ids) {
    const auto check = find_check(id, here, known, rangecheck::quoted(id) + " is no check");
    if (check)
      id = check->id;
    else
      map.fault("drives", check.error().what, check.error().remedy);
  }
  return ids;
}

void read_band(yaml::Map& map, const std::string& language, CheckPart& check) {
  const Dimension dimension = *check.name.named.dimension;
  check.target = optional_target(map, "target", dimension);
  if (check.target) check.origin = origin_of(map.place("target"));
  if (const auto fade = map.optional_quantity("fade", dimension)) check.fade_si = fade->si;
  if (check.fade_si && !(*check.fade_si > 0)) map.fault("fade", "must be more than 0");
  check.low = optional_written(map, "low", language);
  check.high = optional_written(map, "high", language);
}

void read_accepted(yaml::Map& map, const std::string& language, CheckPart& check) {
  check.accept = optional_words(map, "accept");
  if (check.accept && check.accept->empty()) map.fault("accept", "accepts nothing");
  if (check.accept) check.origin = origin_of(map.place("accept"));
  // Words have no low side and no high side: one sentence serves both.
  check.low = check.high = optional_written(map, "outside", language);
}

/// What the readers of a file's parts need to know of the file and of others.
struct Reading {
  const std::string& file;
  const std::string& language;
  const Known& known;
  Faults& faults;
};

CheckPart read_check(const YAML::Node& node, CheckPart check, const Reading& reading) {
  yaml::Map map(node, check.place.file, check.place.key);
  check.written = as_written(node, check.place.file);
  if (check.name.named.subject == Subject::observed)
    read_accepted(map, reading.language, check);
  else
    read_band(map, reading.language, check);
  check.title = map.optional_text("title");
  check.weight = map.optional_number("weight");
  if (check.weight && *check.weight < 0) map.fault("weight", "must not be negative");
  check.drives = read_drives(map, check.name.position.value_or(Position::address), reading.known);
  check.drives_place = map.place("drives");
  check.inside = optional_written(map, "inside", reading.language);
  check.drill = optional_written(map, "drill", reading.language);
  check.caution = optional_written(map, "caution", reading.language);
  if (map.has("off")) check.off = map.flag("off", false);
  map.node("off");
  const auto before = reading.faults.size();
  finish(map, reading.faults);
  check.faulty = reading.faults.size() > before;
  return check;
}

/// The checks of one section, `found`, which stands at `path`.
void read_section(const YAML::Node& found, const std::string& path, const Section& section,
                  const Reading& reading, ProfilePart& into) {
  yaml::Map map(found, reading.file, path);
  if (!found.IsMap()) return finish(map, reading.faults);
  for (const auto& entry : found) {
    CheckPart check;
    check.place = map.place(entry.first.Scalar());
    auto name = name_in(section, entry.first.Scalar(), check.place, reading.known);
    if (!name) {
      reading.faults.push_back(name.error());
      into.lost_checks = true;
      continue;
    }
    check.name = std::move(*name);
    check = read_check(entry.second, std::move(check), reading);
    const auto twice = std::ranges::find(into.checks, check.name.id, [](const CheckPart& other) {
      return std::string_view(other.name.id);
    });
    if (twice == into.checks.end())
      into.checks.push_back(std::move(check));
    else  // under checks: and under positions: address:
      reading.faults.push_back({Fault::bad_profile,
                                "stands in line " + std::to_string(*twice->place.line) + " as well",
                                check.place, "keep one of the two"});
  }
}

void read_positions(const YAML::Node& found, const Reading& reading, ProfilePart& into) {
  yaml::Map map(found, reading.file, "positions");
  if (!found.IsMap()) return finish(map, reading.faults);
  PositionMap<std::string> written;
  for (const auto& entry : found) {
    const std::string& word = entry.first.Scalar();
    const auto fault = [&](std::string what, std::string remedy) {
      into.lost_checks = true;
      reading.faults.push_back(
          {Fault::bad_profile, std::move(what), map.place(word), std::move(remedy)});
    };
    const auto position = find_position(word);
    if (!position) {
      fault("there is no such position", did_you_mean(word, position_words()));
      continue;
    }
    if (written[*position]) {
      fault("is the same position as " + *written[*position], "put all under one of the two");
      continue;
    }
    written[*position] = word;
    const Section section{word, "measure", Subject::measured, *position};
    read_section(entry.second, map.place(word).key, section, reading, into);
  }
}

void read_head(yaml::Map& map, const std::string& language, const Known& known, ProfilePart& part) {
  require_version(map);
  part.id = map.text("id");
  part.place = map.place("id");
  part.title = optional_written(map, "title", language);
  part.club = map.optional_text("club");
  const std::vector<std::string_view> families(known.families.begin(), known.families.end());
  if (part.club && std::ranges::find(families, *part.club) == families.end())
    map.fault("club", rangecheck::quoted(*part.club) + " is no family in clubs.yaml",
              did_you_mean(*part.club, families));
  if (map.has("swing")) part.swing = map.choice("swing", swings);
  map.node("swing");
  part.style = map.optional_text("style");
  part.extends = optional_words(map, "extends").value_or(std::vector<std::string>{});
  part.extends_place = map.place("extends");
  part.confidence = map.optional_number("confidence");
  // At one half and below, a value could be inside and outside with confidence at once.
  if (part.confidence && !(*part.confidence > 0.5 && *part.confidence < 1))
    map.fault("confidence", "must be more than 0.5 and less than 1");
  part.least_seen = map.optional_number("least-seen");
  if (part.least_seen && !(*part.least_seen >= 0 && *part.least_seen <= 1))
    map.fault("least-seen", "must be between 0 and 1");
}

}  // namespace

ProfilePart read_profile_part(const YAML::Node& document, const std::string& file,
                              const Known& known, Faults& faults) {
  yaml::Map map(document, file);
  ProfilePart part;
  part.language = language_of(map);
  part.written = as_written(document, file);
  const Reading reading{file, part.language, known, faults};
  read_head(map, part.language, known, part);
  if (const YAML::Node found = map.node("positions")) read_positions(found, reading, part);
  for (const auto& section : sections)
    if (const YAML::Node found = map.node(section.key))
      read_section(found, std::string(section.key), section, reading, part);
  finish(map, faults);
  return part;
}

void collect_observations(const YAML::Node& document, Known& known) {
  if (!document.IsMap()) return;
  const YAML::Node observed = document["observed"];
  if (!observed || !observed.IsMap()) return;
  for (const auto& entry : observed) {
    const std::string& id = entry.first.Scalar();
    if (!find_subject(id, known)) known.observations.insert(id);
  }
}

}  // namespace rangecheck::grade
