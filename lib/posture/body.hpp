// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "base/units.hpp"
#include "intake/submission.hpp"
#include "posture/problem.hpp"
#include "posture/unknowns.hpp"

namespace rangecheck::posture {

/// Joints that every address has, seen or not.
std::vector<LandmarkId> body_joints();
/// Where prior knowledge puts `id` for a golfer of `stature_m`, metres; nothing for a landmark that
/// the estimate has no place for.
std::optional<Point> address_place(LandmarkId id, double stature_m);

/// Prior knowledge of one golfer at address: proportions, symmetry, ground, joints, the frame.
void add_body(Problem& problem, const Unknowns& unknowns);
/// The stature that was stated.
void add_stature(Problem& problem, const Unknowns& unknowns, Length stature);
/// The foot length that a shoe size gives.
void add_foot(Problem& problem, const Unknowns& unknowns, const intake::FootLength& foot);

}  // namespace rangecheck::posture
