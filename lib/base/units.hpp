// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <numbers>

namespace rangecheck {

/// A plane angle. Radians inside, degrees at the edges.
class Angle {
 public:
  constexpr Angle() = default;
  static constexpr Angle radians(double value) { return Angle(value); }
  static constexpr Angle degrees(double value) { return Angle(value * std::numbers::pi / 180); }
  constexpr double in_radians() const { return radians_; }
  constexpr double in_degrees() const { return radians_ * 180 / std::numbers::pi; }
  constexpr auto operator<=>(const Angle&) const = default;
  constexpr Angle operator-() const { return Angle(-radians_); }
  constexpr Angle operator+(Angle other) const { return Angle(radians_ + other.radians_); }
  constexpr Angle operator-(Angle other) const { return Angle(radians_ - other.radians_); }
  constexpr Angle operator*(double factor) const { return Angle(radians_ * factor); }

 private:
  constexpr explicit Angle(double value) : radians_(value) {}
  double radians_ = 0;
};

/// A length. Metres inside; inches, centimetres and millimetres at the edges.
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length metres(double value) { return Length(value); }
  static constexpr Length centimetres(double value) { return Length(value / 100); }
  static constexpr Length millimetres(double value) { return Length(value / 1000); }
  static constexpr Length inches(double value) { return Length(value * metres_per_inch); }
  static constexpr Length feet(double value) { return Length(value * 12 * metres_per_inch); }
  constexpr double in_metres() const { return metres_; }
  constexpr double in_centimetres() const { return metres_ * 100; }
  constexpr double in_millimetres() const { return metres_ * 1000; }
  constexpr double in_inches() const { return metres_ / metres_per_inch; }
  constexpr auto operator<=>(const Length&) const = default;
  constexpr Length operator-() const { return Length(-metres_); }
  constexpr Length operator+(Length other) const { return Length(metres_ + other.metres_); }
  constexpr Length operator-(Length other) const { return Length(metres_ - other.metres_); }
  constexpr Length operator*(double factor) const { return Length(metres_ * factor); }
  constexpr double operator/(Length other) const { return metres_ / other.metres_; }

 private:
  /// Exact since the international yard and pound agreement of 1959.
  static constexpr double metres_per_inch = 0.0254;
  constexpr explicit Length(double value) : metres_(value) {}
  double metres_ = 0;
};

/// A span of time, in seconds.
class Duration {
 public:
  constexpr Duration() = default;
  static constexpr Duration seconds(double value) { return Duration(value); }
  constexpr double in_seconds() const { return seconds_; }
  constexpr auto operator<=>(const Duration&) const = default;

 private:
  constexpr explicit Duration(double value) : seconds_(value) {}
  double seconds_ = 0;
};

/// A number without a unit: a fraction of a length, a ratio of two.
struct Ratio {
  double value = 0;
  constexpr auto operator<=>(const Ratio&) const = default;
};

}  // namespace rangecheck
