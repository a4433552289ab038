// SPDX-License-Identifier: MIT
#include "intake/film_words.hpp"

#include <algorithm>
#include <vector>

#include "base/text.hpp"

namespace rangecheck::intake {
namespace {

/// In the order of the enumerations.
constexpr std::array<std::string_view, 2> estimators = {"unknown", "points-33"};
constexpr std::array<std::string_view, 3> space_sources = {"one-camera", "depth-camera",
                                                           "several-cameras"};

template <class Value, std::size_t size>
std::optional<Value> named(std::string_view word, const std::array<std::string_view, size>& words) {
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<Value>(found - words.begin());
}

}  // namespace

std::string anatomical_name(LandmarkId id) {
  const std::string joint(key_of(id.joint));
  if (id.side == Side::centre) return joint;
  return (id.side == Side::lead ? "left_" : "right_") + joint;
}

std::string nearest_point_name(std::string_view misspelt) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < landmark_count; ++i) names.push_back(anatomical_name(landmark_at(i)));
  const std::vector<std::string_view> views(names.begin(), names.end());
  return nearest(misspelt, views);
}

std::string_view word_for(Estimator estimator) {
  return estimators[static_cast<std::size_t>(estimator)];
}

std::optional<Estimator> estimator_named(std::string_view word) {
  return named<Estimator>(word, estimators);
}

std::string_view word_for(SpaceSource source) {
  return space_sources[static_cast<std::size_t>(source)];
}

std::optional<SpaceSource> space_source_named(std::string_view word) {
  return named<SpaceSource>(word, space_sources);
}

}  // namespace rangecheck::intake
