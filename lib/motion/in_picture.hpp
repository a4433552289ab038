// SPDX-License-Identifier: MIT
// Inside motion: how large the golfer is in the picture, and how far inside it. An estimator that
// does not see a foot leaves it out, guesses it beyond the edge or puts it on the edge; what the
// rest of the body says is held against all three.
#pragma once

#include <optional>
#include <span>

#include "motion/film_facts.hpp"

namespace rangecheck::motion {

using Places = LandmarkMap<intake::ImagePoint>;

/// Where everything is: medians over those of the track's frames that show it, at least a third.
Places usual_places(const pose::Track& track, std::span<const std::size_t> frames);
/// Where everything is in one frame that shows the golfer; what the estimator all but rules out is
/// left out.
Places places_in(const pose::Track& track, std::size_t frame);

/// Margins to the edges of one film's picture, in heights of the golfer at address.
class InPicture {
 public:
  /// Nothing when too little of the body is seen at address to tell how tall it is.
  static std::optional<InPicture> of(const intake::Film& film, const Places& at_address);

  double height_px() const { return height_px_; }
  Fact height_share() const;
  /// Nothing when neither they nor what is next to them is seen.
  std::optional<Fact> feet(const Places& places) const;
  std::optional<Fact> head(const Places& places) const;
  /// Nothing when its wrist is not seen.
  std::optional<Fact> hand(const Places& places, Side side) const;

 private:
  InPicture(intake::ImageSize image, bool from_33, double height_px, double relative_u)
      : image_(image), from_33_(from_33), height_px_(height_px), relative_u_(relative_u) {}
  /// Of what reaches so far (in heights) beyond a point that lies so far from the edge.
  Fact margin(double distance_px, double reach, double sigma) const;

  intake::ImageSize image_;
  bool from_33_;
  double height_px_;
  double relative_u_;
};

}  // namespace rangecheck::motion
