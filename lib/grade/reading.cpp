// SPDX-License-Identifier: MIT
#include "grade/reading.hpp"

#include <algorithm>
#include <array>

#include "measure/ball_flight.hpp"

namespace rangecheck::grade {
namespace {

constexpr auto kinds = std::to_array<ReadingKind>({
    {"face-to-target", "Club face to target line at impact", Dimension::angle},
    {"club-path", "Club path to target line at impact", Dimension::angle},
    {"start-direction", "Start direction of the ball", Dimension::angle},
});

constexpr Angle reading_uncertainty = Angle::degrees(0.5);  // from memory

constexpr double eye_uncertainty_si(Dimension dimension) {  // common practice, no source
  switch (dimension) {
    case Dimension::angle:
      return Angle::degrees(5).in_radians();
    case Dimension::length:
      return Length::inches(1).in_metres();
    case Dimension::ratio:
      return 0.1;
    case Dimension::time:
      break;
  }
  return 0.1;
}

std::optional<Angle> angle_reading(const intake::Submission& submission, std::string_view id) {
  const auto found = submission.readings.find(std::string(id));
  if (found == submission.readings.end()) return std::nullopt;
  if (found->second.dimension != Dimension::angle) return std::nullopt;
  return Angle::radians(found->second.si);
}

}  // namespace

std::span<const ReadingKind> reading_kinds() { return kinds; }

const ReadingKind* find_reading(std::string_view id) {
  const auto found = std::ranges::find(kinds, id, &ReadingKind::id);
  return found == kinds.end() ? nullptr : &*found;
}

std::optional<Given> given_reading(const intake::Submission& submission, std::string_view id) {
  if (id != "start-direction") {
    const auto value = angle_reading(submission, id);
    if (!value) return std::nullopt;
    return Given{value->in_radians(), reading_uncertainty.in_radians(),
                 "a launch monitor's reading, trusted to 0.5 deg (from memory)"};
  }
  const auto face = angle_reading(submission, "face-to-target");
  const auto path = angle_reading(submission, "club-path");
  if (!face || !path) return std::nullopt;
  const auto start = measure::start_direction(*face, *path, reading_uncertainty);
  return Given{
      start.value.in_radians(), start.standard_uncertainty.in_radians(),
      "worked out from the readings of face and path, each trusted to 0.5 deg (from memory)"};
}

Result<std::optional<Given>> given_by_eye(const intake::Submission& submission, std::string_view id,
                                          Dimension wanted) {
  const auto found = submission.observed.find(std::string(id));
  if (found == submission.observed.end()) return std::optional<Given>{};
  const auto quantity = parse_quantity(found->second, wanted);
  if (!quantity) return quantity.error();
  const double u = eye_uncertainty_si(wanted);
  const std::string_view trust = wanted == Dimension::angle    ? "5 deg"
                                 : wanted == Dimension::length ? "1 in"
                                                               : "0.1";
  return std::optional(Given{quantity->si, u,
                             "read by a person, not measured; trusted to " + std::string(trust) +
                                 " (common practice, no source)"});
}

}  // namespace rangecheck::grade
