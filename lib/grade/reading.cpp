// SPDX-License-Identifier: MIT
#include "grade/reading.hpp"

#include <algorithm>
#include <array>

#include "measure/ball_flight.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::grade {
namespace {

constexpr auto kinds = std::to_array<ReadingKind>({
    {"face-to-target", "Club face to target line at impact", Dimension::angle},
    {"club-path", "Club path to target line at impact", Dimension::angle},
    {"start-direction", "Start direction of the ball", Dimension::angle},
});

constexpr Angle reading_uncertainty = Angle::degrees(0.5);  // from memory

struct Trust {
  double standard_uncertainty_si;
  std::string_view words;
};
constexpr Trust trust_in_an_eye(Dimension dimension) {  // common practice, no source
  switch (dimension) {
    case Dimension::angle:
      return {Angle::degrees(5).in_radians(), "5 deg"};
    case Dimension::length:
      return {Length::inches(1).in_metres(), "1 in"};
    case Dimension::time:
      return {0.1, "0.1 s"};
    case Dimension::ratio:
      break;
  }
  return {0.1, "0.1"};
}

std::optional<Angle> angle_reading(const intake::Submission& submission, std::string_view id) {
  const auto found = submission.readings.find(std::string(id));
  if (found == submission.readings.end()) return std::nullopt;
  if (found->second.dimension != Dimension::angle) return std::nullopt;
  return Angle::radians(found->second.si);
}

}  // namespace

std::string plain_id(std::string_view written) {
  const auto slash = written.find('/');
  if (slash == std::string_view::npos) return std::string(written);
  const auto position = find_position(written.substr(0, slash));
  return position ? measure::check_id(written.substr(slash + 1), position) : std::string(written);
}

std::span<const ReadingKind> reading_kinds() { return kinds; }

const ReadingKind* find_reading(std::string_view id) {
  const auto found = std::ranges::find(kinds, id, &ReadingKind::id);
  return found == kinds.end() ? nullptr : &*found;
}

std::optional<Given> given_reading(const intake::Submission& submission, std::string_view id) {
  if (id != "start-direction") {
    const auto value = angle_reading(submission, id);
    if (!value) return std::nullopt;
    return Given{value->in_radians(), reading_uncertainty.in_radians(), {"given.reading"}};
  }
  const auto face = angle_reading(submission, "face-to-target");
  const auto path = angle_reading(submission, "club-path");
  if (!face || !path) return std::nullopt;
  const auto start = measure::start_direction(*face, *path, reading_uncertainty);
  return Given{
      start.value.in_radians(), start.standard_uncertainty.in_radians(), {"given.worked-out"}};
}

Result<std::optional<Given>> given_by_eye(const intake::Submission& submission, std::string_view id,
                                          Dimension wanted) {
  const auto found = std::ranges::find_if(
      submission.observed, [id](const auto& one) { return plain_id(one.first) == id; });
  if (found == submission.observed.end()) return std::optional<Given>{};
  const auto quantity = parse_quantity(found->second, wanted);
  if (!quantity) return quantity.error();
  const Trust trust = trust_in_an_eye(wanted);
  return std::optional(Given{quantity->si,
                             trust.standard_uncertainty_si,
                             {"given.by-eye", {{"trust", std::string(trust.words)}}}});
}

}  // namespace rangecheck::grade
