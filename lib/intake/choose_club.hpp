// SPDX-License-Identifier: MIT
// Whose club is whose, and which of many balls is the one that is hit.
#pragma once

#include <vector>

#include "intake/club_points.hpp"

namespace rangecheck::intake {

/// What lies about in the film of a detector, learnt from all frames that match.
///
/// A person's club is the one whose grip is nearest to the person's hands, and within reach of
/// them; where only heads or shafts were found, the nearest of these that does not lie where
/// something stays whether the golfer's hands are up or down. Points of two clubs are never
/// mixed. The ball is the one that lies still where a head is set down for longest (without heads:
/// nearest to the feet).
class ClubChoice {
 public:
  /// `found[i]` is what was found in `film.frames[i]`; nullptr where no frame matches.
  ClubChoice(const Film& film, const std::vector<const std::vector<FoundClub>*>& found);

  /// The club and the ball of this person in frame `frame`.
  FoundClub of(const Person& person, std::size_t frame) const;

 private:
  /// A number of frames, with the golfer's hands up and not.
  struct Frames {
    std::size_t up = 0, down = 0;
  };
  /// A place in the picture where part of a club was found, and in how many frames.
  struct Lying {
    ImagePoint at;
    Frames frames;
  };

  void note_places(const Film& film);
  void choose_ball(const Film& film);
  bool stays(ImagePoint at) const;
  FoundClub club_of(const Person& person, std::size_t frame) const;

  const std::vector<const std::vector<FoundClub>*>& found_;
  double within_px_ = 0;  ///< how far apart two sightings of one lying thing may be
  Frames frames_;
  std::vector<Lying> places_;
  std::optional<ImagePoint> ball_;
};

}  // namespace rangecheck::intake
