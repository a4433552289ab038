// SPDX-License-Identifier: MIT
#include "base/skeleton.hpp"

#include <algorithm>

namespace rangecheck {
namespace {

/// In the order of Joint.
constexpr std::array<std::string_view, central_joint_count + paired_joint_count> joint_keys = {
    "nose",      "neck",      "head_top", "mid_spine", "pelvis",   "ball",     "grip_end",
    "hands_mid", "shaft_mid", "hosel",    "club_toe",  "eye",      "ear",      "shoulder",
    "elbow",     "wrist",     "hip",      "knee",      "ankle",    "heel",     "big_toe",
    "small_toe", "thumb_1",   "thumb_2",  "thumb_3",   "thumb_4",  "index_1",  "index_2",
    "index_3",   "index_4",   "middle_1", "middle_2",  "middle_3", "middle_4", "ring_1",
    "ring_2",    "ring_3",    "ring_4",   "little_1",  "little_2", "little_3", "little_4"};
static_assert(joint_keys.back() == "little_4");
static_assert(joint_keys[static_cast<std::size_t>(Joint::eye)] == "eye");

}  // namespace

std::string_view key_of(Joint joint) { return joint_keys[static_cast<std::size_t>(joint)]; }

std::string key_of(LandmarkId id) {
  const std::string joint(key_of(id.joint));
  if (id.side == Side::centre) return joint;
  return (id.side == Side::lead ? "lead_" : "trail_") + joint;
}

std::string name_of(LandmarkId id) {
  std::string name = key_of(id);
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::optional<Joint> find_joint(std::string_view snake_case) {
  const auto found = std::find(joint_keys.begin(), joint_keys.end(), snake_case);
  if (found == joint_keys.end()) return std::nullopt;
  return static_cast<Joint>(found - joint_keys.begin());
}

}  // namespace rangecheck
