// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rangecheck {

/// Lead is the side nearer the target, trail the other: the only sides there are past intake.
enum class Side : std::uint8_t { centre, lead, trail };

/// Body, club and ball points. `thumb_1 … little_4` run from base to tip.
// clang-format off
enum class Joint : std::uint8_t {
  // on the middle line
  nose, neck, head_top, mid_spine, pelvis, ball, grip_end, hands_mid, shaft_mid, hosel, club_toe,
  // one on each side
  eye, ear, shoulder, elbow, wrist, hip, knee, ankle, heel, big_toe, small_toe,
  thumb_1, thumb_2, thumb_3, thumb_4, index_1, index_2, index_3, index_4,
  middle_1, middle_2, middle_3, middle_4, ring_1, ring_2, ring_3, ring_4,
  little_1, little_2, little_3, little_4
};
// clang-format on

inline constexpr std::size_t central_joint_count = 11;
inline constexpr std::size_t paired_joint_count = 31;
inline constexpr std::size_t landmark_count = central_joint_count + 2 * paired_joint_count;

constexpr bool is_paired(Joint joint) {
  return static_cast<std::size_t>(joint) >= central_joint_count;
}

/// One point of the skeleton. Central joints have Side::centre, paired ones never do.
struct LandmarkId {
  Side side = Side::centre;
  Joint joint = Joint::nose;
  constexpr bool operator==(const LandmarkId&) const = default;
};

constexpr LandmarkId lead(Joint joint) { return {Side::lead, joint}; }
constexpr LandmarkId trail(Joint joint) { return {Side::trail, joint}; }
constexpr LandmarkId centre(Joint joint) { return {Side::centre, joint}; }

/// Position of a landmark in a dense table of `landmark_count` entries.
constexpr std::size_t index_of(LandmarkId id) {
  const auto joint = static_cast<std::size_t>(id.joint);
  if (!is_paired(id.joint)) return joint;
  return central_joint_count + 2 * (joint - central_joint_count) + (id.side == Side::trail ? 1 : 0);
}

/// Inverse of index_of.
constexpr LandmarkId landmark_at(std::size_t index) {
  if (index < central_joint_count) return centre(static_cast<Joint>(index));
  const std::size_t paired = index - central_joint_count;
  return {paired % 2 == 0 ? Side::lead : Side::trail,
          static_cast<Joint>(central_joint_count + paired / 2)};
}

/// The other side's point; a central point is its own.
constexpr LandmarkId mirrored(LandmarkId id) {
  if (id.side == Side::lead) return trail(id.joint);
  if (id.side == Side::trail) return lead(id.joint);
  return id;
}

/// "lead knee", "big toe" → the words of the reports ("lead big toe").
std::string name_of(LandmarkId id);
/// snake_case, as the plain landmark form writes it: "lead_big_toe", "nose".
std::string key_of(LandmarkId id);
/// snake_case name of the joint alone: "big_toe".
std::string_view key_of(Joint joint);
/// The joint spelled in snake_case, or nothing.
std::optional<Joint> find_joint(std::string_view snake_case);

/// A value for each landmark that has one.
template <class T>
class LandmarkMap {
 public:
  const std::optional<T>& operator[](LandmarkId id) const { return values_[index_of(id)]; }
  std::optional<T>& operator[](LandmarkId id) { return values_[index_of(id)]; }
  bool has(LandmarkId id) const { return values_[index_of(id)].has_value(); }
  auto& values() { return values_; }
  const auto& values() const { return values_; }

 private:
  std::array<std::optional<T>, landmark_count> values_{};
};

}  // namespace rangecheck
