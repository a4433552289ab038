// SPDX-License-Identifier: MIT
// One profile file as it stands, before `extends` is followed. Inside grade only.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/yaml.hpp"
#include "grade/profile.hpp"
#include "grade/vocabulary.hpp"

namespace rangecheck::grade {

/// A check as one file gives it: every key may be left to another file.
struct CheckPart {
  CheckName name;
  Place place;         ///< of the check's key
  Place drives_place;  ///< of the list that counts
  std::string origin;  ///< "file:line" of the band or words that count
  std::optional<std::string> title;
  std::optional<Target> target;
  std::optional<std::vector<std::string>> accept;
  std::optional<double> fade_si;
  std::optional<double> weight;
  std::optional<std::vector<std::string>> drives;
  std::optional<Written> low, high, inside, drill, caution;
  std::optional<bool> off;
};

struct ProfilePart {
  std::string id;
  Place place;  ///< of the id
  Place extends_place;
  std::vector<std::string> extends;
  std::optional<Written> title;
  std::optional<std::string> club, swing, style;
  std::optional<double> confidence, least_seen;
  std::vector<CheckPart> checks;
};

/// Reads one file. Unknown keys, rules, positions, families and swings, rules that are not measured
/// where they are asked for, and targets of the wrong dimension are errors here; what only the
/// whole set shows is left to merge_profiles.
Result<ProfilePart> read_profile_part(const YAML::Node& document, const std::string& file,
                                      const Known& known);

/// Adds the ids under `observed:` of one document to `known`, without judging it.
void collect_observations(const YAML::Node& document, Known& known);

/// measures.yaml: the coaches' own measures.
Result<std::vector<std::shared_ptr<const measure::OwnMeasure>>> read_own_measures(
    const YAML::Node& document, const std::string& file);

/// Follows `extends` and returns the profiles that name a club, in the order of the files.
/// Each ancestor is laid down once, deepest first and in the order listed; a later file wins key by
/// key, the file itself last.
Result<std::vector<Profile>> merge_profiles(const std::vector<ProfilePart>& parts,
                                            const Known& known);

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

/// The tag under `language:`, in which the file's sentences are written; English where it has none.
std::string language_of(yaml::Map& map);
/// A sentence in that language, if there is one.
std::optional<Written> optional_written(yaml::Map& map, std::string_view key,
                                        const std::string& language);

/// A list of words, or one word alone; a fault of `map` when it is anything else.
std::optional<std::vector<std::string>> optional_words(yaml::Map& map, std::string_view key);

/// Reads `key` as a target; a fault of `map` when it is none.
std::optional<Target> optional_target(yaml::Map& map, std::string_view key, Dimension wanted);

/// Checks the file's `version:`, the only one so far being 1.
void require_version(yaml::Map& map);

/// "file:line".
std::string origin_of(const Place& place);

}  // namespace rangecheck::grade
