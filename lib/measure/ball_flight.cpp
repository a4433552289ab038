// SPDX-License-Identifier: MIT
#include "measure/ball_flight.hpp"

#include <cmath>

namespace rangecheck::measure {
namespace {

// Wood, Henrikson & Broadie 2018: share of the face over clubs, golfers and robot together.
constexpr double least_share = 0.61;
constexpr double most_share = 0.83;

// One-sided 95 % of a normal distribution.
constexpr double sure_at = 1.645;

Curve curve_of(Angle face_to_path) {
  if (face_to_path < Angle()) return Curve::toward_lead;
  if (face_to_path > Angle()) return Curve::toward_trail;
  return Curve::straight;
}

}  // namespace

std::string_view name_of(Curve curve) {
  switch (curve) {
    case Curve::toward_lead:
      return "toward-lead";
    case Curve::straight:
      return "straight";
    case Curve::toward_trail:
      return "toward-trail";
  }
  return "";
}

Angle launch_direction(Angle face, Angle path, double face_share) {
  return path + (face - path) * face_share;
}

StartDirection start_direction(Angle face, Angle path, Angle reading_uncertainty) {
  const Angle face_to_path = face - path;
  const double share = (least_share + most_share) / 2;
  const double u_share = (most_share - least_share) / std::sqrt(12.0);  // rectangular
  const double u = reading_uncertainty.in_radians();
  const double u_face_to_path = std::sqrt(2.0) * u;
  StartDirection out;
  out.value = launch_direction(face, path, share);
  // The last term is the second-order one of a product of independent factors.
  out.standard_uncertainty =
      Angle::radians(std::hypot(face_to_path.in_radians() * u_share,
                                std::hypot(share, 1 - share) * u, u_share * u_face_to_path));
  out.curve = curve_of(face_to_path);
  out.curve_sure = std::abs(face_to_path.in_radians()) > sure_at * u_face_to_path;
  return out;
}

}  // namespace rangecheck::measure
