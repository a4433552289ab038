// SPDX-License-Identifier: MIT
#include <array>

#include "grade/advice.hpp"

namespace rangecheck::grade {

std::span<const Relation> relations() {
  static constexpr std::array all = {
      Relation{"knee-flexion-difference", "trail-knee-flexion", "lead-knee-flexion"},
      Relation{"knee-line-to-stance", "knee-line-to-target", "stance-line"},
      Relation{"thigh-line-to-stance", "thigh-line-to-target", "stance-line"},
      Relation{"hip-line-to-stance", "hip-line-to-target", "stance-line"},
      Relation{"shoulder-line-to-stance", "shoulder-line-to-target", "stance-line"},
      Relation{"lead-knee-flexion-change", "lead-knee-flexion", "lead-knee-flexion", false, true},
      Relation{"trail-knee-flexion-change", "trail-knee-flexion", "trail-knee-flexion", false,
               true},
      Relation{"forward-bend-change", "forward-bend", "forward-bend", false, true},
      Relation{"side-bend-change", "side-bend", "side-bend", false, true},
      Relation{"hand-height-change", "hand-height", "hand-height", false, true},
      Relation{"tempo-ratio", "backswing-time", "downswing-time", true, false},
  };
  return all;
}

}  // namespace rangecheck::grade
