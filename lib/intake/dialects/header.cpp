// SPDX-License-Identifier: MIT
#include "intake/dialects/header.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 8> number_keys = {
    "frame",       "frame_id",   "frameId",   "frame_number",
    "frameNumber", "frameIndex", "frame_idx", "frame_index"};
constexpr std::array<std::string_view, 8> time_keys = {
    "timestamp", "timestamp_ms", "timestampMs", "timestamp_usec",
    "time",      "time_s",       "time_ms",     "currentTime"};
constexpr std::array<std::string_view, 6> width_keys = {
    "width", "image_width", "imageWidth", "video_width", "videoWidth", "frame_width"};
constexpr std::array<std::string_view, 6> height_keys = {
    "height", "image_height", "imageHeight", "video_height", "videoHeight", "frame_height"};
constexpr std::array<std::string_view, 6> rate_keys = {"fps",       "frame_rate", "frameRate",
                                                       "framerate", "frame-rate", "video_fps"};
/// Objects of their own for what is said of the whole film.
constexpr std::array<std::string_view, 7> header_keys = {"image", "video",     "metadata",  "meta",
                                                         "info",  "imageSize", "image_size"};

std::optional<double> number_under(Value object, std::span<const std::string_view> keys) {
  for (const auto key : keys) {
    const auto value = object.find(key);
    if (const auto number = value ? value->number() : std::nullopt) return number;
  }
  return std::nullopt;
}

bool all_differ(const std::vector<std::optional<long long>>& numbers) {
  std::vector<long long> sorted;
  for (const auto& number : numbers) {
    if (!number || *number < 0) return false;
    sorted.push_back(*number);
  }
  std::sort(sorted.begin(), sorted.end());
  return std::adjacent_find(sorted.begin(), sorted.end()) == sorted.end();
}

/// Seconds in the unit of `times`; nothing when no two of them tell it.
std::optional<double> unit_s(const std::vector<std::optional<double>>& times) {
  std::vector<double> steps;
  std::optional<double> before;
  for (const auto& time : times) {
    if (time && before && *time > *before) steps.push_back(*time - *before);
    if (time) before = time;
  }
  if (steps.empty()) return std::nullopt;
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  double unit = 1;
  // A step that overflows is left to who checks the times.
  for (double step = *middle; step >= 1 && std::isfinite(step); step /= 1000) unit /= 1000;
  return unit;
}

void read_size_and_rate(Value object, RawFilm& film) {
  const auto width = number_under(object, width_keys), height = number_under(object, height_keys);
  if (!film.image && width && height && *width > 0 && *height > 0) {
    film.image = ImageSize{*width, *height};
  }
  const auto rate = number_under(object, rate_keys);
  if (!film.frame_rate_hz && rate && *rate > 0) film.frame_rate_hz = rate;
}

}  // namespace

void Stamps::add(Value entry) {
  std::optional<long long> number;
  for (const auto key : number_keys) {
    const auto value = entry.find(key);
    if (value && !number) number = value->whole();
  }
  numbers_.push_back(number);
  times_.push_back(number_under(entry, time_keys));
}

void Stamps::stamp(RawFilm& film) const {
  const bool numbered = all_differ(numbers_);
  const auto unit = unit_s(times_);
  for (std::size_t i = 0; i < film.frames.size(); ++i) {
    if (numbered) film.frames[i].number = static_cast<std::size_t>(*numbers_[i]);
    if (unit && times_[i]) film.frames[i].time = Duration::seconds(*times_[i] * *unit);
  }
}

void read_header(Value object, RawFilm& film) {
  if (!object.is_object()) return;
  read_size_and_rate(object, film);
  for (const auto key : header_keys) {
    if (const auto inner = object.find(key)) read_size_and_rate(*inner, film);
  }
}

}  // namespace rangecheck::intake
