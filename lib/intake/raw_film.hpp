// SPDX-License-Identifier: MIT
// What a dialect reads: points as they are written, before anyone knows which joint an index is,
// what a coordinate is counted in, or which points are missing. `assemble` makes a Film of it, the
// same way for all dialects.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "intake/film.hpp"
#include "intake/spot.hpp"

namespace rangecheck::intake {

// What one film may hold: far above any swing, and a bound on the memory and the time that a
// stranger's file can take. Beyond, it is refused.
/// Seven minutes at 240 Hz.
inline constexpr std::size_t most_frames = 100'000;
/// Estimators find some dozens in a crowd; following people takes time with their square.
inline constexpr std::size_t most_people_in_frame = 200;
/// One in each of as many frames as there may be, or ten in each of 10 000. Somebody in a frame
/// takes 15 kB on the way to a grade.
inline constexpr std::size_t most_people_in_film = most_frames;
/// A minute at 240 Hz of 543 points: body, face and both hands.
inline constexpr std::size_t most_points_in_film = 8'000'000;

/// As written; what is not given (or null, or NaN) is NaN.
struct RawPoint {
  static constexpr double none = std::numeric_limits<double>::quiet_NaN();
  double x = none, y = none, z = none;
  double score = none;
};

/// One person of one frame. Lists are in the order of the film's names or, without names, of the
/// estimator's point set; an empty list: not given.
struct RawPerson {
  std::vector<RawPoint> body;                   ///< in the picture
  std::vector<RawPoint> space;                  ///< in space
  std::vector<RawPoint> left_hand, right_hand;  ///< in the picture, 21 points or none
  std::optional<int> track;                     ///< identity, where the estimator gives a real one
};

struct RawFrame {
  std::size_t number = 0;
  std::optional<Duration> time;
  std::vector<RawPerson> people;

  /// Refused beyond most_people_in_frame.
  void add(RawPerson person, const Spot& where);
};

/// What the number beside a point is.
enum class Score {
  confidence,  ///< 0..1 or a little more; 0 or less is missing, unless all of a film are 0
  label,       ///< a person's mark: 0 not labelled, 1 hidden, 2 visible
  visibility   ///< 0..1; a guessed point may have 0 and is still a point
};

/// Which way the points in space are counted.
enum class SpaceAxes {
  camera,      ///< x right, y down, z away from the camera
  camera_up,   ///< x right, y up, z away from the camera
  world_z_up,  ///< gravity along −z, any heading
  world_y_up,  ///< gravity along −y, any heading
  world_y_down
};

struct RawSpace {
  SpaceSource source = SpaceSource::one_camera;
  SpaceAxes axes = SpaceAxes::camera;
  /// Metres in one unit of the file; 0: of no known size.
  double unit_m = 1;
};

struct RawFilm {
  std::string form;  ///< words for people, without count and units: "one list of people a frame"
  /// The file's own names of its points, in order; empty when it has none and the count has to
  /// tell.
  std::vector<std::string> names;
  /// Names are those of the plain form, and any few of them will do: the form is written by hand.
  bool partial = false;
  /// Layouts (by name) that this form is written with, likeliest first; empty: any.
  std::vector<std::string_view> layouts;
  Estimator estimator = Estimator::unknown;  ///< where the form alone tells; else the layout's
  Score score = Score::confidence;
  bool y_up = false;  ///< picture counted from its lower left corner
  /// True where the form is always in fractions of the picture, or always in pixels; nothing: the
  /// numbers have to tell.
  std::optional<bool> fractions;
  RawSpace space;
  bool picture_is_drawn = false;  ///< as Film::picture_is_drawn, where the file itself says so
  /// Written from a Film: `form` is the whole of Film::dialect, coordinates are pixels, camera axes
  /// and metres, and every point that is listed was seen, whatever its confidence.
  bool settled = false;
  std::optional<ImageSize> image;
  std::optional<double> frame_rate_hz;
  std::vector<Message> notes;  ///< as Film::notes
  /// The frames are the entries of a bare list of persons, who may as well be in one picture.
  bool bare_list = false;
  std::vector<RawFrame> frames;  ///< in the order of the file; sorted by number in assembly

  /// Adds a frame with everybody in it. Refused beyond what a film may hold.
  void add(RawFrame frame, const Spot& where);
  /// Adds somebody to a frame that is there already.
  void add(RawPerson person, std::size_t to_frame, const Spot& where);

  std::size_t people_added = 0, points_added = 0;  ///< in all frames
};

/// Each refuses more than a film may have of frames, of people in one of them, of points in all:
/// for readers that find them in another order than `add` wants.
void check_frame_count(std::size_t count, const Spot& where);
void check_people_count(std::size_t count, const Spot& where);
void check_point_count(std::size_t count, const Spot& where);

/// Refuses a size of the picture, a frame rate and times that are of no film: whoever comes later
/// divides by them.
void check_facts(const RawFilm& raw, const Spot& where);

}  // namespace rangecheck::intake
