// SPDX-License-Identifier: MIT
#include "posture/posture.hpp"

#include <algorithm>

namespace rangecheck::posture {

namespace {

std::optional<std::size_t> index_in(const std::vector<LandmarkId>& landmarks, LandmarkId id) {
  const auto at = std::find(landmarks.begin(), landmarks.end(), id);
  if (at == landmarks.end()) return std::nullopt;
  return static_cast<std::size_t>(at - landmarks.begin());
}

}  // namespace

std::optional<std::size_t> Posture::find(LandmarkId id) const { return index_in(landmarks, id); }

std::optional<std::size_t> Posture::find_at_address(LandmarkId id) const {
  if (address_landmarks.empty()) return find(id);
  const auto at = index_in(address_landmarks, id);
  if (!at) return std::nullopt;
  return landmarks.size() + *at;
}

std::optional<Point> Posture::point(LandmarkId id) const {
  const auto at = find(id);
  if (!at) return std::nullopt;
  return Point(mean.segment<3>(3 * static_cast<Eigen::Index>(*at)));
}

std::string_view advice(Observation observation) {
  switch (observation) {
    case Observation::face_on_film:
      return "add a face-on film: camera at hand height, square to the line of the toes, whole "
             "body "
             "and ball in frame";
    case Observation::down_the_line_film:
      return "add a down-the-line film: camera behind the hands, at hand height, looking along the "
             "target line, whole body and ball in frame";
    case Observation::target_stick:
      return "lay a stick on the ground along the target line and mark its two ends (target-line)";
    case Observation::stature:
      return "give the golfer's height";
    case Observation::shoe_size:
      return "give the golfer's shoe size";
    case Observation::focal_length:
      return "give the camera's focal length in pixels";
  }
  return "";
}

}  // namespace rangecheck::posture
