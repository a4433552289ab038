// SPDX-License-Identifier: MIT
// Points of club and ball that the film's own file does not have: a detector's, in a file of their
// own, or a person's clicks. They end up with the people of the film, in whose hands the club is.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "intake/landmarks.hpp"

namespace rangecheck::intake {

/// The joints of club and ball follow one another.
inline constexpr std::size_t club_joint_count = 6;
constexpr Joint club_joint(std::size_t index) {
  return static_cast<Joint>(static_cast<std::size_t>(Joint::ball) + index);
}
constexpr bool is_of_club_or_ball(Joint joint) {
  return joint >= Joint::ball && joint <= Joint::club_toe;
}
/// "ball, grip_end, hands_mid, shaft_mid, hosel and club_toe".
std::string club_joint_names();

/// The point of a club or a ball that a detector's name means: "grip_end", "GripEnd", "golf ball";
/// unusual ones are in profiles/layouts/names.yaml.
std::optional<Joint> club_point_named(std::string_view name);

/// What was found in one place of one frame: a club, a part of one, or a ball. By joint, in the
/// order of club_joint.
struct FoundClub {
  std::array<std::optional<Sighting>, club_joint_count> points;

  std::optional<Sighting>& operator[](Joint joint) {
    return points[static_cast<std::size_t>(joint) - static_cast<std::size_t>(Joint::ball)];
  }
  const std::optional<Sighting>& operator[](Joint joint) const {
    return points[static_cast<std::size_t>(joint) - static_cast<std::size_t>(Joint::ball)];
  }
};

struct ClubFrame {
  std::size_t number = 0;
  std::optional<Duration> time;
  std::vector<FoundClub> found;
};

/// The film of a detector of clubs and balls.
struct ClubFilm {
  std::string file;  ///< what errors and notes call it
  std::optional<double> frame_rate_hz;
  std::vector<ClubFrame> frames;  ///< by number
};

/// Reads it like a film, in any form in which points carry names; other points are left out. Places
/// are turned into pixels of `film`, x as in `film`. An error when no name is one of club or ball,
/// or when nothing was found in any frame.
Result<ClubFilm> read_club_film(const std::vector<LandmarkText>& files, const Film& film,
                                Handedness handedness);

/// Gives each person of `film` the club and ball that are theirs (see choose_club), in the frames
/// that match, in place of what the film's own file says; tells so in the film's notes.
/// `frame_rate_hz` is the film's. An error when no frames match.
std::optional<Error> add_club_film(const ClubFilm& club, std::optional<double> frame_rate_hz,
                                   Film& film);

/// Points that a person marked in one picture.
struct Click {
  std::optional<std::size_t> frame;                  ///< its number, or
  std::optional<Duration> time;                      ///< its time
  std::vector<std::pair<Joint, ImagePoint>> points;  ///< pixels of the film as shot
  Place place;                                       ///< where it is written
};

/// Gives each person of the clicked frames these points, in place of all others; tells so in the
/// film's notes. An error when the film has no such frame, or nobody in it, or when a point is
/// outside the picture.
std::optional<Error> add_clicks(const std::vector<Click>& clicks,
                                std::optional<double> frame_rate_hz, Handedness handedness,
                                Film& film);

}  // namespace rangecheck::intake
