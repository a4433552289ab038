// SPDX-License-Identifier: MIT
// What the words in profile files may name. Inside grade only.
#pragma once

#include <array>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/position.hpp"
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "grade/profile.hpp"
#include "measure/rule.hpp"

namespace rangecheck::grade {

/// What the readers of single files need to know of the rest.
struct Known {
  std::vector<std::string> families;
  std::vector<const measure::Rule*> own;  ///< the coaches' own measures
  std::set<std::string> observations;     ///< ids under `observed:` in any profile file
};

/// What a word in a profile file names.
struct Named {
  Subject subject = Subject::measured;
  const measure::Rule* rule = nullptr;   ///< of a measure
  std::optional<Dimension> dimension{};  ///< nothing for words
  std::string_view title{};              ///< "" where only the id says it
};
/// The rule of the catalogue or of a coach's own, reading or observation with this id, or nothing.
std::optional<Named> find_subject(std::string_view id, const Known& known);

/// Every id that find_subject finds, for "did you mean".
std::vector<std::string_view> subject_ids(const Known& known);

/// A check as profiles, limits and submissions call it.
struct CheckName {
  std::string id;                    ///< as measure::check_id has it
  std::string rule;                  ///< the same without its position
  std::optional<Position> position;  ///< nothing for times, readings and observations
  Named named;
};
CheckName name_check(std::string_view rule, const Named& named, std::optional<Position> position);

/// The check that `text` names: POSITION/MEASURE, or an id alone, which is a measure at `here`,
/// else at address, or a time, a reading or an observation. An error (no place) calls `text`
/// `unknown` when there is nothing of that name, or says where a measure is measured.
Result<CheckName> find_check(std::string_view text, Position here, const Known& known,
                             std::string_view unknown);

/// Where a check stands among the others: position by position and in each from the ground up, then
/// times, what was observed, readings.
std::array<std::size_t, 3> order_of(const CheckName& name, const Known& known);

/// "top", "shaft-parallel-back to impact": where a rule is measured.
std::string to_string(Positions positions);

/// Every id and alias of a position, for "did you mean".
std::span<const std::string_view> position_words();

/// "did you mean x?", or "" when nothing is near.
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates);

}  // namespace rangecheck::grade
