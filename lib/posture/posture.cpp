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

Message advice(Observation observation) {
  switch (observation) {
    case Observation::face_on_film:
      return {"remedy.face-on-film"};
    case Observation::down_the_line_film:
      return {"remedy.down-the-line-film"};
    case Observation::target_stick:
      return {"remedy.target-stick"};
    case Observation::stature:
      return {"remedy.stature"};
    case Observation::shoe_size:
      return {"remedy.shoe-size"};
    case Observation::focal_length:
      return {"remedy.focal-length"};
  }
  return {};
}

}  // namespace rangecheck::posture
