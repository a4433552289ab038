// SPDX-License-Identifier: MIT
// The ways in which estimators, and programs around them, write what they found: one entry for each
// form that intake reads, and for each set of points where a form comes with several. Each turns
// the made-up scene into files, and says what of the scene those files hold. A test writes all of
// them, reads them back and prints the table that README shows.
//
// To add one: a writer in the file of its family, and an entry in that file's list.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "generator/dialects/point_orders.hpp"
#include "generator/dialects/scene.hpp"
#include "generator/writer.hpp"

namespace rangecheck::samples {

/// How the points in space have to come back.
enum class SpaceHeld {
  none,
  metres,       ///< camera axes, metres; origin anywhere, for each person
  any_heading,  ///< likewise, but turned about the vertical
  any_size      ///< likewise, and of another size
};

/// What of the scene the files of an entry hold. What they do not hold must not come back.
struct Holds {
  bool people = true;            ///< everybody; else only the first of each frame
  bool missing = true;           ///< says which points were not seen; else they are guessed
  bool hands = false;            ///< the fingers
  bool picture = true;           ///< points in the picture
  bool confidence = true;        ///< as the scene has it; else it comes back as 1
  bool space_confidence = true;  ///< the same for the points in space, where there are any
  bool tracks = false;
  bool numbers = false;      ///< of frames; else they come back as 0, 1, 2, …
  bool times = false;        ///< of frames
  bool empty_frames = true;  ///< a frame in which nobody was found is there, without people
  bool image_size = false;   ///< else the submission has to tell it
  bool frame_rate = false;
  SpaceHeld space = SpaceHeld::none;
};

struct Dialect {
  std::string_view form;   ///< id of the form that has to recognise it
  std::string_view title;  ///< of its row in the table; one row may stand for several entries
  /// What the body's lists hold. Points without an id are written somewhere and must not come back.
  PointOrder points;
  PointOrder space_points = {};  ///< empty: as `points`
  Holds holds = {};
  double within_px = 0.051;  ///< half of the last digit written, and rounding
  double within_m = 0.00051;
  std::size_t first_number = 0;  ///< of the camera's frame 0, where the estimator counts from 1
  std::string_view layout = {};  ///< to be named by the submission where the file can't tell it
  std::function<std::vector<NamedText>(const Scene&)> write;
};

/// What writers give a point that was not seen, where their form can't leave it out.
inline constexpr double guessed_score = 0.03;

/// The scene's point; of a point without an id, a made-up one on the face.
ScenePoint point_of(const ScenePerson& person, const OrderedPoint& point);
/// Of the whole list.
std::vector<ScenePoint> points_of(const ScenePerson& person, const PointOrder& order);

/// Of all families.
std::vector<Dialect> all_dialects();
/// The first of them that writes `form` with that many points a person. Throws when there is none.
Dialect dialect_of(std::string_view form, std::size_t points);

// One a file.
std::vector<Dialect> array_dialects();     ///< lists of bare numbers
std::vector<Dialect> object_dialects();    ///< lists of point objects, and points by name
std::vector<Dialect> instance_dialects();  ///< detectors' own forms
std::vector<Dialect> plain_dialects();     ///< the tool's own form
std::vector<Dialect> points_33_dialects();
std::vector<Dialect> space_dialects();  ///< points in space, and tables

}  // namespace rangecheck::samples
