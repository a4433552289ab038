// SPDX-License-Identifier: MIT
// submission.yaml as it is written, checked as far as that can be done without films and roster.
#pragma once

#include "base/yaml.hpp"
#include "intake/club_points.hpp"
#include "intake/submission.hpp"

namespace rangecheck::intake {

/// One entry of `views`. Points are in pixels of the film as it was taken, not yet mirrored.
struct ManifestView {
  View view = View::face_on;
  std::vector<std::string> landmarks;  ///< paths inside the submission's folder
  std::string layout;                  ///< name of the point set, where the file can't tell it
  std::optional<ImageSize> image;
  std::optional<double> frame_rate_hz;
  std::optional<ImagePoint> ball;
  bool ball_in_film = false;  ///< `ball: ball`: the film's own points show it
  std::optional<std::pair<ImagePoint, ImagePoint>> target_line;
  CameraFacts camera;
  std::vector<std::string> club_points;  ///< paths of a detector's file, as `landmarks`
  std::vector<Click> clicks;
  Place club_points_place;
  Place landmarks_place, layout_place, ball_place, target_line_place;  ///< for errors found later
};

/// What `golfer` says; the roster fills the rest.
struct GolferFacts {
  std::optional<std::string> name;
  std::optional<Handedness> handedness;
  std::optional<Length> stature;
  std::optional<FootLength> foot;
  std::optional<std::string> style;
  std::optional<std::vector<std::string>> limits;
};

struct Manifest {
  std::string student, received, club;
  std::string swing = "full";
  std::optional<GolferFacts> golfer;
  std::vector<ManifestView> views;
  bool same_swing = false;
  std::map<std::string, std::string> observed;
  std::map<std::string, Quantity> readings;
  Place student_place;
};

/// The kinds of swing that there are.
bool is_swing(std::string_view word);

std::optional<View> find_view(std::string_view word);

/// `file` is what errors call it.
Result<Manifest> read_manifest(const std::string& text, const std::string& file);

}  // namespace rangecheck::intake
