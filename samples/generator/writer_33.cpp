// SPDX-License-Identifier: MIT
#include "generator/written.hpp"

namespace rangecheck::samples {
namespace {

/// Corners of the eye lie a fifth of the way to the other eye and beyond it.
Mix eye_corner(LandmarkId eye, double toward_other) {
  return {{{eye, 1 - toward_other}, {mirrored(eye), toward_other}}};
}

/// As far below the nose as the nose is below the eyes, less a third; half as wide as the eyes.
Mix mouth_corner(Side side) {
  const LandmarkId eye{side, Joint::eye};
  return {{{centre(Joint::nose), 1.65}, {eye, -0.1}, {mirrored(eye), -0.55}}};
}

/// In the order of the 33 points; lead means left.
std::vector<Mix> layout_33() {
  std::vector<Mix> layout{centre(Joint::nose)};
  for (const auto eye : {lead(Joint::eye), trail(Joint::eye)}) {
    layout.insert(layout.end(), {eye_corner(eye, 0.2), Mix(eye), eye_corner(eye, -0.2)});
  }
  layout.insert(layout.end(), {Mix(lead(Joint::ear)), Mix(trail(Joint::ear)),
                               mouth_corner(Side::lead), mouth_corner(Side::trail)});
  for (const auto joint :
       {Joint::shoulder, Joint::elbow, Joint::wrist, Joint::little_1, Joint::index_1,
        Joint::thumb_2, Joint::hip, Joint::knee, Joint::ankle, Joint::heel, Joint::big_toe}) {
    layout.insert(layout.end(), {Mix(lead(joint)), Mix(trail(joint))});
  }
  return layout;
}

Json object(double x, double y, double z, double visibility, Digits digits) {
  const auto written = [&](double value, int decimals) {
    return digits == Digits::all ? value : rounded(value, decimals);
  };
  return {{"x", written(x, 5)},
          {"y", written(y, 5)},
          {"z", written(z, 4)},
          {"visibility", written(visibility, 4)}};
}

/// Size of the figure in the picture, which such estimators give their image z in.
double pixels_per_metre(const DetectedFrame& person) {
  const LandmarkId top = centre(Joint::nose), bottom = trail(Joint::ankle);
  return (person.image[bottom]->at_px.y() - person.image[top]->at_px.y()) /
         (person.space[bottom]->at_m.y() - person.space[top]->at_m.y());
}

Json both_sets(const Film& film, const DetectedFrame& person, const std::vector<Mix>& layout,
               Digits digits) {
  Json image = Json::array(), space = Json::array();
  const double scale = pixels_per_metre(person) / film.width_px;
  const double sign = film.hand == Hand::right ? 1 : -1;
  for (const auto& anatomical : layout) {
    const Mix mix = as_drawn(anatomical, film.hand);
    const Detected seen = mixed(person.image, mix, &Detected::at_px);
    const DetectedInSpace placed = mixed(person.space, mix, &DetectedInSpace::at_m);
    image.push_back(object(shot_x_px(film, seen.at_px.x()) / film.width_px,
                           seen.at_px.y() / film.height_px, scale * placed.at_m.z(),
                           seen.confidence, digits));
    space.push_back(object(sign * placed.at_m.x(), placed.at_m.y(), placed.at_m.z(),
                           placed.confidence, digits));
  }
  return {{"poseLandmarks", image}, {"poseWorldLandmarks", space}};
}

}  // namespace

std::string points_33_results(const Film& film, Digits digits) {
  const auto layout = layout_33();
  Json frames = Json::array();
  for (std::size_t i = 0; i < film.frames.size(); ++i) {
    const auto& people = film.frames[i];
    while (frames.size() < film.number(i)) frames.push_back(Json::object());
    frames.push_back(people.empty() ? Json::object()
                                    : both_sets(film, people.front(), layout, digits));
  }
  return frames.dump() + "\n";
}

}  // namespace rangecheck::samples
