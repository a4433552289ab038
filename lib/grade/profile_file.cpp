// SPDX-License-Identifier: MIT
#include "grade/profile_file.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"

namespace rangecheck::grade {
namespace {

constexpr auto swings =
    std::to_array<std::string_view>({"full", "pitch", "chip", "bunker", "putt"});

/// A section of a profile, and the kind of check it holds.
struct Section {
  std::string_view key;
  Subject subject;
};
constexpr auto sections = std::to_array<Section>({{"checks", Subject::measured},
                                                  {"readings", Subject::reading},
                                                  {"observed", Subject::observed}});

std::string_view section_of(Subject subject) {
  return std::ranges::find(sections, subject, &Section::subject)->key;
}

std::string_view kind_name(Subject subject) {
  switch (subject) {
    case Subject::measured:
      return "measure";
    case Subject::reading:
      return "reading";
    case Subject::observed:
      break;
  }
  return "observation";
}

/// An id that its section can't hold, or nothing.
std::optional<Error> misplaced(std::string_view id, Subject section, const Place& place,
                               const Known& known) {
  const auto found = find_subject(id, known);
  if (found && found->subject == section) return std::nullopt;
  if (found && section == Subject::observed)  // a measure's id must not name words as well
    return Error{Fault::bad_profile, "is the name of a " + std::string(kind_name(found->subject)),
                 place, "put it under " + std::string(section_of(found->subject)) + ":"};
  std::string remedy = did_you_mean(id, subject_ids(known));
  if (found) remedy = "put it under " + std::string(section_of(found->subject)) + ":";
  return Error{Fault::bad_profile, "there is no such " + std::string(kind_name(section)), place,
               remedy};
}

std::optional<std::vector<std::string>> read_drives(yaml::Map& map, const Known& known) {
  const auto ids = optional_words(map, "drives");
  for (const auto& id : ids.value_or(std::vector<std::string>{})) {
    if (find_subject(id, known)) continue;
    map.fault("drives", rangecheck::quoted(id) + " is no check",
              did_you_mean(id, subject_ids(known)));
  }
  return ids;
}

void read_band(yaml::Map& map, CheckPart& check) {
  check.target = optional_target(map, "target", check.dimension);
  if (check.target) check.origin = origin_of(map.place("target"));
  if (const auto fade = map.optional_quantity("fade", check.dimension)) check.fade_si = fade->si;
  if (check.fade_si && !(*check.fade_si > 0)) map.fault("fade", "must be more than 0");
  check.low = map.optional_text("low");
  check.high = map.optional_text("high");
}

void read_accepted(yaml::Map& map, CheckPart& check) {
  check.accept = optional_words(map, "accept");
  if (check.accept && check.accept->empty()) map.fault("accept", "accepts nothing");
  if (check.accept) check.origin = origin_of(map.place("accept"));
  // Words have no low side and no high side: one sentence serves both.
  check.low = check.high = map.optional_text("outside");
}

Result<CheckPart> read_check(const YAML::Node& node, CheckPart check, const Known& known) {
  yaml::Map map(node, check.place.file, check.place.key);
  if (check.subject == Subject::observed)
    read_accepted(map, check);
  else
    read_band(map, check);
  check.title = map.optional_text("title");
  check.weight = map.optional_number("weight");
  if (check.weight && *check.weight < 0) map.fault("weight", "must not be negative");
  check.drives = read_drives(map, known);
  check.drives_place = map.place("drives");
  check.inside = map.optional_text("inside");
  check.drill = map.optional_text("drill");
  check.caution = map.optional_text("caution");
  if (map.has("off")) check.off = map.flag("off", false);
  map.node("off");
  if (auto error = map.finish()) return *error;
  return check;
}

std::optional<Error> read_section(yaml::Map& profile, const Section& section, const Known& known,
                                  std::vector<CheckPart>& into) {
  const YAML::Node found = profile.node(section.key);
  if (!found) return std::nullopt;
  yaml::Map map(found, profile.file(), std::string(section.key));
  if (!found.IsMap()) return map.finish();
  for (const auto& entry : found) {
    CheckPart check;
    check.id = entry.first.Scalar();
    check.place = map.place(check.id);
    check.subject = section.subject;
    if (auto error = misplaced(check.id, section.subject, check.place, known)) return error;
    const auto dimension = find_subject(check.id, known)->dimension;
    check.dimension = dimension.value_or(Dimension::ratio);
    auto read = read_check(entry.second, std::move(check), known);
    if (!read) return read.error();
    into.push_back(std::move(*read));
  }
  return std::nullopt;
}

void read_head(yaml::Map& map, const Known& known, ProfilePart& part) {
  require_version(map);
  part.id = map.text("id");
  part.place = map.place("id");
  part.title = map.optional_text("title");
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

Result<ProfilePart> read_profile_part(const YAML::Node& document, const std::string& file,
                                      const Known& known) {
  yaml::Map map(document, file);
  ProfilePart part;
  read_head(map, known, part);
  for (const auto& section : sections)
    if (auto error = read_section(map, section, known, part.checks)) return *error;
  if (auto error = map.finish()) return *error;
  return part;
}

void collect_observations(const YAML::Node& document, std::set<std::string>& into) {
  if (!document.IsMap()) return;
  const YAML::Node observed = document["observed"];
  if (!observed || !observed.IsMap()) return;
  for (const auto& entry : observed)
    if (!find_subject(entry.first.Scalar(), {})) into.insert(entry.first.Scalar());
}

}  // namespace rangecheck::grade
