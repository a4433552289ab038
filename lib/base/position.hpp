// SPDX-License-Identifier: MIT
// The positions of the swing, by the trade's names and p-numbers, and exactly what moment each is.
// Truth in generated films, the finder of positions and the reports all mean these.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace rangecheck {

enum class Position : std::uint8_t {
  address,                     ///< p1: standing still, up to the last moment before the club or the
                               ///< hands set off
  shaft_parallel_back,         ///< p2: the shaft first lies level with the ground, going back
  lead_arm_parallel_back,      ///< p3: lead shoulder and lead wrist first equally high, going back
  top,                         ///< p4: the club (without club points: the hands) turns round
  lead_arm_parallel_down,      ///< p5: lead shoulder and lead wrist equally high again, coming down
  shaft_parallel_down,         ///< p6: the shaft last lies level before impact
  impact,                      ///< p7: the club head is where the ball was
  shaft_parallel_through,      ///< p8: the shaft first lies level after impact
  trail_arm_parallel_through,  ///< p9: trail shoulder and trail wrist equally high, going through
  finish  ///< p10: the first moment after p9 at which the hands move slower than 0.2 m/s
};

inline constexpr std::size_t position_count = 10;
inline constexpr std::array<Position, position_count> all_positions{
    Position::address, Position::shaft_parallel_back,    Position::lead_arm_parallel_back,
    Position::top,     Position::lead_arm_parallel_down, Position::shaft_parallel_down,
    Position::impact,  Position::shaft_parallel_through, Position::trail_arm_parallel_through,
    Position::finish};

constexpr std::size_t index_of(Position position) { return static_cast<std::size_t>(position); }

/// "lead-arm-parallel-back": as profiles, results and tables write it.
std::string_view id_of(Position position);
/// "Lead arm parallel back", for headings.
std::string_view title_of(Position position);
/// "p3".
std::string_view alias_of(Position position);
/// The position with this id or alias, or nothing.
std::optional<Position> find_position(std::string_view id_or_alias);

/// A value for each position that has one.
template <class T>
class PositionMap {
 public:
  const std::optional<T>& operator[](Position position) const {
    return values_[index_of(position)];
  }
  std::optional<T>& operator[](Position position) { return values_[index_of(position)]; }
  bool has(Position position) const { return values_[index_of(position)].has_value(); }

 private:
  std::array<std::optional<T>, position_count> values_{};
};

/// A set of positions, for tables of constants.
class Positions {
 public:
  constexpr Positions() = default;
  template <class... Each>
  static constexpr Positions of(Each... each) {
    Positions out;
    ((out.bits_ |= static_cast<std::uint16_t>(1u << index_of(each))), ...);
    return out;
  }
  /// From `first` to `last`, both in it.
  static constexpr Positions from(Position first, Position last) {
    Positions out;
    for (std::size_t i = index_of(first); i <= index_of(last); ++i)
      out.bits_ |= static_cast<std::uint16_t>(1u << i);
    return out;
  }
  constexpr bool has(Position position) const { return (bits_ >> index_of(position)) & 1u; }
  constexpr Positions operator|(Positions other) const {
    Positions out;
    out.bits_ = bits_ | other.bits_;
    return out;
  }
  constexpr bool operator==(const Positions&) const = default;

 private:
  std::uint16_t bits_ = 0;
};

}  // namespace rangecheck
