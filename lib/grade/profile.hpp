// SPDX-License-Identifier: MIT
// Grade holds measured values against what the coach teaches. It decides verdict, score and what to
// work on; it measures nothing and writes no report. The only room that knows profiles.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/position.hpp"
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/words.hpp"
#include "grade/band.hpp"
#include "grade/filming.hpp"
#include "intake/submission.hpp"
#include "measure/own_measure.hpp"

namespace rangecheck::grade {

/// What a check looks at.
enum class Subject {
  measured,  ///< a rule of the catalogue
  reading,   ///< a number from the manifest's `readings:` (or derived from them: start-direction)
  observed   ///< a word from the manifest's `observed:`
};

/// The coach's words. Any may be empty; reports then use plain ones of their own.
struct Words {
  Written low, high, inside, drill, caution;
};

/// A rule with a target.
struct Check {
  std::string id;         ///< unique: measure::check_id of rule and position, or the reading's or
                          ///< observation's
  std::string rule = {};  ///< the same without its position
  /// Where in the swing; nothing for the whole of it: times, readings and observations.
  std::optional<Position> position = Position::address;
  std::string title;
  Subject subject = Subject::measured;
  Dimension dimension = Dimension::angle;
  std::string unit;  ///< symbol the band was written in; results are shown in it
  Band band;
  std::vector<std::string> accept;  ///< observed: words that are inside
  double fade_si = 0;               ///< distance outside the band at which the score reaches 0; > 0
  double weight = 1;                ///< ≥ 0
  std::vector<std::string> drives;  ///< checks that this one's fault tends to cause
  Words words;
  std::string origin;  ///< "file:line" of the band, for `profile show` and the report
};

struct Profile {
  std::string id, club_family, swing, style;
  Written title;
  double confidence = 0.80;       ///< conformance probability that a verdict needs
  double least_seen_share = 0.5;  ///< of the weight, below which there is no grade
  /// Position by position and in each from the ground up, then times, observations, readings.
  std::vector<Check> checks;
};

/// Everything under a profiles folder, merged and checked.
struct ProfileSet {
  std::vector<Profile> profiles;                     ///< those that can be chosen
  std::map<std::string, std::string> club_families;  ///< "7-iron" → "middle-iron"
  struct BodyLimit {                                 ///< from limits.yaml
    std::vector<std::string> switch_off;             ///< check ids
    std::map<std::string, Target> target;  ///< check id → band in place of the profile's
    std::map<std::string, Band> shift;     ///< check id → amounts added to lower/upper, SI
    Written name;                          ///< as limits.yaml calls it; nothing for a student's own
    Written because;
    std::string origin;  ///< "file:line"
  };
  std::map<std::string, BodyLimit> limits;    ///< "no deep knee flexion" → what changes
  std::map<std::string, BodyLimit> students;  ///< per-student overrides, by student id
  /// The coaches' own measures, from measures.yaml.
  std::vector<std::shared_ptr<const measure::OwnMeasure>> own_measures;
  Filming filming;  ///< from filming.yaml, or the shipped one
  std::string default_style = "neutral";
  std::string hash;  ///< of all files that went in, hex
};

/// Reads clubs.yaml, limits.yaml, measures.yaml, filming.yaml, students/*.yaml (each optional but
/// clubs.yaml) and every other *.yaml in `folder`. Any fault is an error with file, line, key and
/// nearest known key: unknown keys, unknown rules and positions, rules that are not measured where
/// they are checked, bands of the wrong dimension, `drives` that loop, `extends` that loop or is
/// missing.
Result<ProfileSet> load_profiles(const std::filesystem::path& folder);

/// The profile for this club, swing and style ("" = the default), or an error that names the
/// nearest.
Result<const Profile*> choose_profile(const ProfileSet& set, const std::string& club,
                                      const std::string& swing, const std::string& style);

/// What was changed for a student's body: a band moved, or a check left out.
struct Change {
  Check check;               ///< as it was moved
  std::optional<Band> from;  ///< the band before; nothing where it is left out
  Written limit;             ///< what for; nothing for what is the student's own
  Written because;
  std::string whose;  ///< the limit as the roster has it, or "for this student"
};
/// "lead-knee-flexion: 7..22 deg instead of 15..27 deg (no deep knee flexion: …)", for documents.
std::string to_string(const Change& change);

/// A profile fitted to one student's body and limits, and what was changed.
struct Fitted {
  Profile profile;
  std::vector<Change> changes;
  std::map<std::string, std::string> switched_off;  ///< check id → because
};
/// Unknown limits are an error naming the nearest known one: a limit must never be dropped
/// silently.
Result<Fitted> fit_to_student(const Profile& profile, const ProfileSet& set,
                              const intake::Golfer& golfer);

}  // namespace rangecheck::grade
