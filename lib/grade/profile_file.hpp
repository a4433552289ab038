// SPDX-License-Identifier: MIT
// One profile file as it stands, before `extends` is followed. Inside grade only.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/yaml.hpp"
#include "grade/profile.hpp"
#include "grade/vocabulary.hpp"

namespace rangecheck::grade {

/// What is wrong with a coach's files, in the order it is found. Readers add to it and read on;
/// what they could not make out is then absent.
using Faults = std::vector<Error>;

/// A value as a file has it, for `profile show`: lists as the file's reader understands them.
struct AsWritten {
  std::string text;  ///< of a scalar; empty for a list
  Place place;
};
/// What stands under each key; of parts that are laid over one another the later wins.
class AllWritten {
 public:
  using Keys = std::map<std::string, AsWritten, std::less<>>;
  AllWritten() = default;
  explicit AllWritten(Keys keys) : layers_{std::make_shared<const Keys>(std::move(keys))} {}

  void lay(const AllWritten& over) {
    layers_.insert(layers_.end(), over.layers_.begin(), over.layers_.end());
  }
  /// nullptr where nobody says anything under this key.
  const AsWritten* find(std::string_view key) const {
    for (auto layer = layers_.rbegin(); layer != layers_.rend(); ++layer)
      if (const auto found = (*layer)->find(key); found != (*layer)->end()) return &found->second;
    return nullptr;
  }

 private:
  std::vector<std::shared_ptr<const Keys>> layers_;  // shared: a part is laid into many profiles
};

/// A check as one file gives it: every key may be left to another file.
struct CheckPart {
  CheckName name;
  Place place;          ///< of the check's key
  AllWritten written;   ///< each key that counts
  bool faulty = false;  ///< some of it could not be made out: what is absent may not be missing
  Place drives_place;   ///< of the list that counts
  std::string origin;   ///< "file:line" of the band or words that count
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
  AllWritten written;  ///< each key of the head that counts
  std::string language;
  bool lost_checks = false;  ///< some have names that nobody knows
};

/// Reads one file. Unknown keys, rules, positions, families and swings, rules that are not measured
/// where they are asked for, and targets of the wrong dimension are errors here; what only the
/// whole set shows is left to merge_profiles.
ProfilePart read_profile_part(const YAML::Node& document, const std::string& file,
                              const Known& known, Faults& faults);

/// Adds the ids under `observed:` of one document to `known`, without judging it.
void collect_observations(const YAML::Node& document, Known& known);

/// measures.yaml: the coaches' own measures.
std::vector<std::shared_ptr<const measure::OwnMeasure>> read_own_measures(
    const YAML::Node& document, const std::string& file, Faults& faults);

/// Each part with what it `extends` laid under it, in the order of `parts`. Each ancestor is laid
/// down once, deepest first and in the order listed; a later file wins key by key, the part itself
/// last. Checks are in order. Those are left out of which that can't be done.
std::vector<ProfilePart> merge_parts(const std::vector<ProfilePart>& parts, const Known& known,
                                     Faults& faults);

/// The profiles among merged parts, which are those that name a club, in their order.
std::vector<Profile> complete_profiles(const std::vector<ProfilePart>& merged, Faults& faults);

/// Fills `club_families` and `default_style` from clubs.yaml.
void read_clubs(const YAML::Node& document, const std::string& file, ProfileSet& set,
                Faults& faults);
/// limits.yaml: what changes for each of the body's limits.
std::map<std::string, ProfileSet::BodyLimit> read_limits(const YAML::Node& document,
                                                         const std::string& file,
                                                         const Known& known, Faults& faults);
/// students/ID.yaml.
ProfileSet::BodyLimit read_student(const YAML::Node& document, const std::string& file,
                                   const Known& known, Faults& faults);

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

/// The keys of `node` with what stands there, but for maps.
AllWritten as_written(const YAML::Node& node, const std::string& file);

/// Adds the faults of `map`, which has been read.
void finish(yaml::Map& map, Faults& faults);

}  // namespace rangecheck::grade
