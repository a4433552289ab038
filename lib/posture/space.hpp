// SPDX-License-Identifier: MIT
// Points in space as evidence: the frame that they are given in, their factors, and what speaks
// against them. Inside posture only.
#pragma once

#include <vector>

#include "posture/address.hpp"
#include "posture/problem.hpp"
#include "posture/space_error.hpp"
#include "posture/space_formulas.hpp"
#include "posture/views.hpp"

namespace rangecheck::posture {

SpaceKind kind_of(const ViewEvidence& view);
/// One picture, or a guess from one, and nothing else: which end of a short line is nearer is open.
bool depth_is_open(const Evidence& evidence);
/// The evidence without what can't be used: what is marked in pictures that were drawn from points
/// in space, and points beside a picture that are a mirror image.
Evidence usable(Evidence evidence);
/// The evidence without points in space that were guessed from the picture beside them.
Evidence without_guesses(Evidence evidence);

void reserve_space(Unknowns& unknowns, const ViewEvidence& view, ViewUnknowns& at);
/// Lays the points on the body in `state`; of a film without a picture it then moves the joints to
/// where the points are.
void guess_space(const ViewEvidence& view, const ViewUnknowns& at, const Unknowns& unknowns,
                 Eigen::VectorXd& state);
void add_space(Problem& problem, const Unknowns& unknowns, const ViewEvidence& view,
               const ViewUnknowns& at, std::size_t number, bool several_takes);
/// Where no picture shows which way is down: a golfer at address stands over his feet.
void add_balance(Problem& problem, const Unknowns& unknowns);
/// How the film places a joint in space at address, with its spread, apart from any pull.
SeenInSpace placed_at_address(const ViewEvidence& view, LandmarkId id, bool several_takes);
/// Prior knowledge of the frame whose unknowns begin at `frame`.
void add_space_frame(Problem& problem, int frame, const SpaceKind& kind);

}  // namespace rangecheck::posture
