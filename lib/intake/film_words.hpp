// SPDX-License-Identifier: MIT
// How the plain form and its table spell what a Film holds: for those who read them and those who
// write them.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "intake/film.hpp"

namespace rangecheck::intake {

inline constexpr std::string_view plain_format = "rangecheck-landmarks";
inline constexpr int plain_version = 1;

/// "unknown", "points-33".
std::string_view word_for(Estimator estimator);
std::optional<Estimator> estimator_named(std::string_view word);

/// "one-camera", "depth-camera", "several-cameras", "uncalibrated-cameras".
std::string_view word_for(SpaceSource source);
std::optional<SpaceSource> space_source_named(std::string_view word);

/// Columns of the table, in the order in which they are written. A row is a point of a person, or a
/// fact about the film (`fact` and `value` only), or a frame in which nobody is (`frame` and `time`
/// only).
// clang-format off
enum class Column {
  fact, value, frame, time, person, track, point, x, y, confidence, space_x, space_y, space_z,
  space_confidence
};
inline constexpr std::array<std::string_view, 14> column_names = {
  "fact", "value", "frame", "time", "person", "track", "point", "x", "y", "confidence", "space_x",
  "space_y", "space_z", "space_confidence"};
// clang-format on

/// Keys of the plain form's first line, and names of facts in the table, beside image (in the table
/// image-width and image-height), format and version.
namespace fact {
inline constexpr std::string_view read_from = "read-from";
inline constexpr std::string_view frame_rate = "frame-rate";
inline constexpr std::string_view image_width = "image-width";
inline constexpr std::string_view image_height = "image-height";
inline constexpr std::string_view estimator = "estimator";
inline constexpr std::string_view space_source = "space-source";
inline constexpr std::string_view picture_is_drawn = "picture-is-drawn";
inline constexpr std::string_view note = "note";  ///< in the plain form a list: notes
inline constexpr std::array all = {read_from, frame_rate,   image_width,      image_height,
                                   estimator, space_source, picture_is_drawn, note};
}  // namespace fact

}  // namespace rangecheck::intake
