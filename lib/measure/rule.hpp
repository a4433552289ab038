// SPDX-License-Identifier: MIT
// A rule is one registered measurement: a small pure function of points in the golfer frame
// (posture/posture.hpp states frame and signs), and what people need to know about it. A rule gives
// a value only; its uncertainty is found in one shared place (measure/measurement.hpp).
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "base/position.hpp"
#include "base/quantity.hpp"
#include "base/skeleton.hpp"
#include "posture/posture.hpp"

namespace rangecheck::measure {

using posture::Point;

/// From the ground up: the order of every table and report.
enum class Region {
  feet,
  knees,
  hips,
  spine,
  shoulders,
  arms,
  hands,
  grip,
  head,
  club,
  balance,
  timing
};
std::string_view name_of(Region region);

/// A point of a worked example, metres in the golfer frame.
struct Placed {
  double x, y, z;
};

/// Points in the order of the rule's needs and then of its address_needs; a rule about times has
/// its moments' times instead.
struct WorkedExample {
  std::span<const Placed> points;
  double expected;          ///< in deg, m, s or 1, whatever unit the rule is shown in
  double within;            ///< same unit
  std::string_view source;  ///< "by construction", or a publication
  std::span<const double> times_s = {};
};

struct Primitive;  // measure/own_measure.hpp

/// How a measure is drawn on the golfer in a picture, for measures that lie in the plane of one
/// view's picture. The middle of each set of points counts.
struct Drawing {
  enum class Form {
    from_upright,  ///< lean of the line from `from` to `to`
    from_level,    ///< rise of that line
    bend,          ///< 180 deg less the angle at `joint`
    distance       ///< along the ground
  };
  Form form;
  intake::View view;
  std::span<const LandmarkId> from, to;
  std::span<const LandmarkId> joint = {};
  /// A positive lean goes to the picture's right (1) or left (-1) when a right-hander is filmed.
  int lean = 1;
};

/// Category names for a length or angle that people think of in words: value below `from` has the
/// previous name. Used by inset (outside / over / inside).
struct Category {
  double from_si;
  std::string_view name;
};

/// A moment that a rule about time may need: a position's, or that of a greatest rotation speed
/// on the way down.
enum class Moment {
  address,
  shaft_parallel_back,
  lead_arm_parallel_back,
  top,
  lead_arm_parallel_down,
  shaft_parallel_down,
  impact,
  shaft_parallel_through,
  trail_arm_parallel_through,
  finish,
  pelvis_peak,
  chest_peak,
  arms_peak,
  club_peak
};
inline constexpr std::size_t moment_count = 14;
constexpr Moment moment_of(Position position) { return static_cast<Moment>(index_of(position)); }
std::string_view name_of(Moment moment);

/// One rule. All texts are static; `limit` is the standard uncertainty above which the value is not
/// called seen (about 6° for lines and flexions, 1.5 in for lengths), in SI (rad, m, 1, s).
struct Rule {
  std::string_view id;  ///< kebab-case
  std::string_view title;
  Region region = Region::feet;
  Dimension dimension = Dimension::angle;
  std::string_view sign;              ///< what zero and a positive value mean
  std::span<const LandmarkId> needs;  ///< at the position itself
  double seen_limit_si = 0;
  std::string_view limit;   ///< what this measure can't tell, in words
  std::string_view source;  ///< of the definition
  std::span<const WorkedExample> examples;
  /// Points in the order of `needs` and then `address_needs` → value in SI, or nothing where
  /// undefined (points coincide).
  std::optional<double> (*measure)(std::span<const Point>) = nullptr;
  /// True for an unsigned angle (0 = straight): it can't be negative and reads high near 0.
  bool magnitude = false;
  std::span<const Category> categories = {};
  /// Where in the swing it is measured; none for a rule about times, which is of the whole swing.
  Positions at = Positions::of(Position::address);
  /// Points at address that it compares with, each of them in `needs` too: what nothing shows now
  /// has no change.
  std::span<const LandmarkId> address_needs = {};
  /// A rule about times: the moments it needs, in the order in which `measure_times` gets them
  /// (seconds, any origin), and its function in place of `measure`.
  std::span<const Moment> moments = {};
  std::optional<double> (*measure_times)(std::span<const double>) = nullptr;
  /// For pictures; nothing where no view's picture shows it as it is.
  std::optional<Drawing> drawing = {};
  /// A measure of a coach's own: evaluated by its primitive in place of `measure`.
  const Primitive* primitive = nullptr;

  bool is_timing() const { return !moments.empty(); }
};

/// Wraps `formula`, a function of one const std::array<Point, N>& that returns std::optional of
/// Angle, Length or Ratio, so that it gets exactly the N landmarks in `needs`, in that order.
template <const auto& needs, auto formula>
std::optional<double> from(std::span<const Point> points) {
  std::array<Point, std::size(needs)> given;
  for (std::size_t i = 0; i < given.size(); ++i) given[i] = points[i];
  const auto value = formula(given);
  if (!value) return std::nullopt;
  return Quantity::of(*value).si;
}

/// The same for a rule that compares with address: the points of `needs`, then `address_needs`.
template <const auto& needs, const auto& address_needs, auto formula>
std::optional<double> from(std::span<const Point> points) {
  std::array<Point, std::size(needs) + std::size(address_needs)> given;
  for (std::size_t i = 0; i < given.size(); ++i) given[i] = points[i];
  const auto value = formula(given);
  if (!value) return std::nullopt;
  return Quantity::of(*value).si;
}

/// The same for a rule about times: `formula` takes const std::array<double, N>& in seconds and
/// returns std::optional of Duration or Ratio.
template <const auto& moments, auto formula>
std::optional<double> from_times(std::span<const double> times_s) {
  std::array<double, std::size(moments)> given;
  for (std::size_t i = 0; i < given.size(); ++i) given[i] = times_s[i];
  const auto value = formula(given);
  if (!value) return std::nullopt;
  return Quantity::of(*value).si;
}

/// A file in measure/rules/ registers one measure: one rule, or its forms that share a formula
/// (lead and trail, against stance and target line, along two axes). The variable is named as the
/// file.
using RuleSet = std::span<const Rule>;

}  // namespace rangecheck::measure
