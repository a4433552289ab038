// SPDX-License-Identifier: MIT
// The body at a later position of the swing, from what address has taught about it and what the
// films show there.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "base/result.hpp"
#include "motion/smooth.hpp"
#include "posture/address.hpp"

namespace rangecheck::posture {

/// What address leaves for later positions: cameras, the body's size and segments, where the feet
/// stand and how far each landmark of each film lies from its joint, with their joint covariance.
class Carried;

struct AddressEstimate {
  Posture posture;
  std::shared_ptr<const Carried> carried;
};

/// As estimate_address (posture/address.hpp), keeping what later positions build on.
Result<AddressEstimate> estimate_address_to_carry(const Evidence& evidence);

/// What the films show at one moment of the swing.
struct PositionEvidence {
  /// How far the swing is: the number of the position (0 address … 9 finish), or a number between
  /// two for a moment between them.
  double phase = 0;
  /// In the order of the address evidence's views; nothing where a film does not show the moment.
  std::vector<std::optional<motion::Instant>> views;
  /// The films show one swing: their moments are one moment, wrong together.
  bool same_swing = false;
};

/// The posture at that moment, with the address beside it: maximum a posteriori as at address, with
/// cameras, segments, feet and landmark biases carried over, takes spread wider than at address,
/// and the moment's own uncertainty in time added along the motion. An error when too few landmarks
/// are left in every film.
Result<Posture> estimate_position(const Carried& carried, const PositionEvidence& evidence);

}  // namespace rangecheck::posture
