// SPDX-License-Identifier: MIT
// Films, made up or read, as evidence for the estimate; and what is true of their golfer.
#pragma once

#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "generator/drawn.hpp"
#include "measure/measurement.hpp"
#include "posture/address.hpp"

namespace rangecheck::test {

/// A made-up film as intake would read it: landmarks as detected, the estimator's own 3D points
/// where there are any, and the marked ball.
intake::FilmedView film_of(const samples::FilmedTruth& truth);

/// The still address of a film, or nothing when there is none.
std::optional<posture::ViewEvidence> evidence_of(const intake::FilmedView& film);

/// What the estimate of a made-up golfer's films is given: landmarks as detected, the marked ball,
/// the stature (as stated: to 1 cm), no camera facts and no stick.
posture::Evidence evidence_of(const samples::Drawn& drawn, std::uint64_t seed);

/// Everything that a submission says of the golfer's address.
posture::Evidence evidence_of(const intake::Submission& submission);

/// A finding refuses the posture, or there is none.
bool refused(const Result<posture::Posture>& posture);

/// The rule at the true points, SI; nothing when they don't have it.
std::optional<double> truth_of(const measure::Rule& rule, const samples::Points& points);
/// Measured less true, SI; angles the short way round. The value must be there.
double error_of(const measure::Measurement& measured, double truth_si);
/// SI as degrees, inches or the ratio that it is.
double displayed(const measure::Rule& rule, double si);

/// True joints as a truth file names them ("lead_knee": [x, y, z], metres, golfer frame).
samples::Points points_of(const nlohmann::json& joints_m);

}  // namespace rangecheck::test
