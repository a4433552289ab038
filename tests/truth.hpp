// SPDX-License-Identifier: MIT
// How the truth files of films name joints and measures.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "base/skeleton.hpp"

namespace rangecheck::test {

/// A measure of a truth file: its key there, the rule of the same definition, its unit.
struct TruthMeasure {
  const char* key;
  const char* rule;
  bool inches = false;
};

inline constexpr TruthMeasure truth_measures[] = {
    {"stance_width_in", "stance-width", true},
    {"lead_flare", "lead-foot-flare"},
    {"trail_flare", "trail-foot-flare"},
    {"lead_knee_flex", "lead-knee-flexion"},
    {"trail_knee_flex", "trail-knee-flexion"},
    {"lead_elbow_flex", "lead-elbow-flexion"},
    {"trail_elbow_flex", "trail-elbow-flexion"},
    {"toe_line", "stance-line"},
    {"heel_line", "heel-line"},
    {"knee_line", "knee-line-to-target"},
    {"hip_line", "hip-line-to-target"},
    {"shoulder_line", "shoulder-line-to-target"},
    {"knee_vs_stance", "knee-line-to-stance"},
    {"hip_vs_stance", "hip-line-to-stance"},
    {"shoulder_vs_stance", "shoulder-line-to-stance"},
    {"shoulder_tilt", "shoulder-tilt"},
    {"forward_bend", "forward-bend"},
    {"side_bend", "side-bend"},
    {"hands_ahead_in", "hands-ahead-of-ball", true},
    {"trail_knee_inset_in", "trail-knee-inset", true},
};

/// "lead_bigtoe" → lead big toe: the rendered films run the words of a joint together, the samples
/// do not. A joint without a side is on the middle line.
inline std::optional<LandmarkId> truth_landmark(std::string name) {
  Side side = Side::centre;
  for (const auto& [prefix, of] : {std::pair{"lead_", Side::lead}, {"trail_", Side::trail}}) {
    if (!name.starts_with(prefix)) continue;
    side = of;
    name.erase(0, std::string(prefix).size());
  }
  if (name == "bigtoe") name = "big_toe";
  if (name == "smalltoe") name = "small_toe";
  const auto joint = find_joint(name);
  if (!joint) return std::nullopt;
  return LandmarkId{side, *joint};
}

}  // namespace rangecheck::test
