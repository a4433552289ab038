// SPDX-License-Identifier: MIT
// One profile file as it stands, before `extends` is followed. Inside grade only.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/yaml.hpp"
#include "grade/profile.hpp"

namespace rangecheck::grade {

/// A check as one file gives it: every key may be left to another file.
struct CheckPart {
  std::string id;
  Subject subject = Subject::measured;
  Dimension dimension = Dimension::angle;
  Place place;         ///< of the check's id
  Place drives_place;  ///< of the list that counts
  std::string origin;  ///< "file:line" of the band or words that count
  std::optional<std::string> title;
  std::optional<Target> target;
  std::optional<std::vector<std::string>> accept;
  std::optional<double> fade_si;
  std::optional<double> weight;
  std::optional<std::vector<std::string>> drives;
  std::optional<std::string> low, high, inside, drill, caution;
  std::optional<bool> off;
};

struct ProfilePart {
  std::string id;
  Place place;  ///< of the id
  Place extends_place;
  std::vector<std::string> extends;
  std::optional<std::string> title, club, swing, style;
  std::optional<double> confidence, least_seen;
  std::vector<CheckPart> checks;
};

/// What the readers of single files need to know of the rest.
struct Known {
  std::vector<std::string> families;
  std::set<std::string> observations;  ///< ids under `observed:` in any profile file
};

/// Reads one file. Unknown keys, rules, families and swings, and targets of the wrong dimension are
/// errors here; what only the whole set shows is left to merge_profiles.
Result<ProfilePart> read_profile_part(const YAML::Node& document, const std::string& file,
                                      const Known& known);

/// Ids under `observed:` of one document, without judging it.
void collect_observations(const YAML::Node& document, std::set<std::string>& into);

/// Follows `extends` and returns the profiles that name a club, in the order of the files.
/// Each ancestor is laid down once, deepest first and in the order listed; a later file wins key by
/// key, the file itself last.
Result<std::vector<Profile>> merge_profiles(const std::vector<ProfilePart>& parts);

/// Fills `club_families` and `default_style` from clubs.yaml, or says what is wrong with it.
std::optional<Error> read_clubs(const YAML::Node& document, const std::string& file,
                                ProfileSet& set);
/// limits.yaml: what changes for each of the body's limits.
Result<std::map<std::string, ProfileSet::BodyLimit>> read_limits(const YAML::Node& document,
                                                                 const std::string& file,
                                                                 const Known& known);
/// students/ID.yaml.
Result<ProfileSet::BodyLimit> read_student(const YAML::Node& document, const std::string& file,
                                           const Known& known);

/// What an id can name, and its dimension when it has one. Nothing when no rule, reading or
/// observation is called so.
struct Named {
  Subject subject;
  std::optional<Dimension> dimension;
};
std::optional<Named> find_subject(std::string_view id, const Known& known);

/// Every id that find_subject finds, for "did you mean".
std::vector<std::string_view> subject_ids(const Known& known);

/// "did you mean x?", or "" when nothing is near.
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates);

/// A list of words, or one word alone; a fault of `map` when it is anything else.
std::optional<std::vector<std::string>> optional_words(yaml::Map& map, std::string_view key);

/// Reads `key` as a target; a fault of `map` when it is none.
std::optional<Target> optional_target(yaml::Map& map, std::string_view key, Dimension wanted);

/// Checks the file's `version:`, the only one so far being 1.
void require_version(yaml::Map& map);

/// "file:line".
std::string origin_of(const Place& place);

}  // namespace rangecheck::grade
