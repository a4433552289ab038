// SPDX-License-Identifier: MIT
// What the rules about lines across the body share: the line through a lead and a trail landmark,
// seen from above, against the target line or against the stance line.
#pragma once

#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure::body_line {

template <Joint joint>
inline constexpr LandmarkId needs_to_target[] = {lead(joint), trail(joint)};

template <Joint joint>
inline constexpr LandmarkId needs_to_stance[] = {lead(joint), trail(joint), lead(Joint::big_toe),
                                                 trail(Joint::big_toe)};

inline constexpr Placed square[] = {{0.2, 0.5, 0.25}, {-0.2, 0.5, 0.25}};
inline constexpr Placed open[] = {{0.2, 0.6, 0.1}, {-0.2, 0.5, 0.5}};
inline constexpr Placed closed[] = {{0.15, 0.5, 0.4}, {-0.15, 0.5, 0}};
inline constexpr WorkedExample target_examples[] = {
    {square, 0, 1e-9, "by construction"},
    {open, 45, 1e-9, "by construction: height does not count"},
    {closed, -53.130102354156, 1e-9, "by construction: 3-4-5 triangle"},
};

inline constexpr Placed parallel[] = {{0.1, 0.5, 0}, {-0.1, 0.5, 0.2}, {0.2, 0, 0}, {-0.2, 0, 0.4}};
inline constexpr Placed open_on_closed[] = {
    {0.1, 0.5, 0}, {-0.1, 0.5, 0.2}, {0.2, 0, 0.4}, {-0.2, 0, 0}};
inline constexpr WorkedExample stance_examples[] = {
    {parallel, 0, 1e-9, "by construction"},
    {open_on_closed, 90, 1e-9, "by construction: 45 deg open on a stance 45 deg closed"},
};

/// About 6 degrees; the hip joints lie so close together that two good films leave 6 to 7, still
/// enough to tell an open line from a square one.
constexpr double seen_limit_si(Joint joint) {
  return Angle::degrees(joint == Joint::hip ? 7.5 : 6.0).in_radians();
}

/// Going through, lines are held against the target line: the feet have left theirs.
inline constexpr Positions going_through =
    Positions::of(Position::address) |
    Positions::from(Position::lead_arm_parallel_down, Position::finish);

/// The line's angle to the target line. The caller gives the words.
template <Joint joint>
constexpr Rule to_target(std::string_view id, std::string_view title, Region region,
                         std::string_view limit, std::string_view source,
                         Positions at = Positions::of(Position::address)) {
  return {
      .id = id,
      .title = title,
      .region = region,
      .dimension = Dimension::angle,
      .sign = "0 along the target line, positive open",
      .needs = needs_to_target<joint>,
      .seen_limit_si = seen_limit_si(joint),
      .limit = limit,
      .source = source,
      .examples = target_examples,
      .measure = from<needs_to_target<joint>, line_to_target>,
      .at = at,
  };
}

/// The line's angle to the line of the toe tips. The caller gives the words.
template <Joint joint>
constexpr Rule to_stance(std::string_view id, std::string_view title, Region region,
                         std::string_view limit, std::string_view source) {
  return {
      .id = id,
      .title = title,
      .region = region,
      .dimension = Dimension::angle,
      .sign = "0 along the stance line, positive open to it",
      .needs = needs_to_stance<joint>,
      .seen_limit_si = seen_limit_si(joint),
      .limit = limit,
      .source = source,
      .examples = stance_examples,
      .measure = from<needs_to_stance<joint>, line_to_stance>,
  };
}

}  // namespace rangecheck::measure::body_line
