// SPDX-License-Identifier: MIT
#include "intake/film_words.hpp"

#include <algorithm>

namespace rangecheck::intake {
namespace {

/// In the order of the enumerations.
constexpr std::array<std::string_view, 2> estimators = {"unknown", "points-33"};
constexpr std::array<std::string_view, 4> space_sources = {
    "one-camera", "depth-camera", "several-cameras", "uncalibrated-cameras"};

template <class Value, std::size_t size>
std::optional<Value> named(std::string_view word, const std::array<std::string_view, size>& words) {
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<Value>(found - words.begin());
}

}  // namespace

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
