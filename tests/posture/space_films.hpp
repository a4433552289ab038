// SPDX-License-Identifier: MIT
// Made-up films that have points in space only, as intake would give them.
#pragma once

#include <cstdint>
#include <functional>

#include "generator/space_detector.hpp"
#include "generator/swing.hpp"
#include "posture/population.hpp"

namespace rangecheck::test {

/// The film of a golfer at address seen by `kind` from where `truth`'s camera stands.
intake::FilmedView space_film_of(const samples::FilmedTruth& truth, samples::SpaceKind kind,
                                 std::uint64_t seed);
/// The same of a swing.
intake::FilmedView space_film_of(const samples::FilmedSwing& truth, samples::SpaceKind kind,
                                 std::uint64_t seed);

/// The film without its picture: what it has in space, and a picture drawn from that.
intake::FilmedView without_picture(intake::FilmedView film);

/// For Trial::tell: the films are replaced by what `kind` sees from where their cameras stand.
std::function<void(const samples::Drawn&, posture::Evidence&)> seen_in_space(
    samples::SpaceKind kind);

}  // namespace rangecheck::test
