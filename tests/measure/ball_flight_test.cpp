// SPDX-License-Identifier: MIT
#include "measure/ball_flight.hpp"

#include "close.hpp"

namespace rangecheck {

using measure::Curve;
using measure::launch_direction;
using measure::start_direction;

namespace {
const Angle face = Angle::degrees(1.5);
const Angle path = Angle::degrees(3.5);
}  // namespace

TEST_CASE("launch lies between path and face, nearer the face") {
  // Face 1.5 open, path 3.5 in-to-out; shares 0.61 to 0.83 from Wood, Henrikson & Broadie 2018,
  // doi 10.3390/proceedings2060249; directions by hand.
  CHECK_CLOSE(launch_direction(face, path, 0.61).in_degrees(), 2.28, 1e-9);
  CHECK_CLOSE(launch_direction(face, path, 0.75).in_degrees(), 2.00, 1e-9);
  CHECK_CLOSE(launch_direction(face, path, 0.83).in_degrees(), 1.84, 1e-9);
}

TEST_CASE("start direction carries the spread of the face's share") {
  const auto exact = start_direction(face, path, Angle());
  CHECK(exact.value.in_degrees() > 1.84);
  CHECK(exact.value.in_degrees() < 2.28);
  // Rectangular over a width of 0.22 × 2 deg.
  CHECK_CLOSE(exact.standard_uncertainty.in_degrees(), 0.127, 5e-4);

  // Readings to 1 deg each: hypot(0.72, 0.28) deg of them besides.
  const auto read = start_direction(face, path, Angle::degrees(1));
  CHECK_CLOSE(read.standard_uncertainty.in_degrees(), std::hypot(0.127, 0.7725, 0.0898), 1e-3);
}

TEST_CASE("the ball curves from the path toward the face") {
  const auto draw = start_direction(face, path, Angle::degrees(0.5));
  CHECK(draw.value > Angle());
  CHECK(draw.curve == Curve::toward_lead);
  CHECK(draw.curve_sure);
  CHECK(start_direction(path, face, Angle::degrees(0.5)).curve == Curve::toward_trail);
  CHECK(start_direction(face, face, Angle::degrees(0.5)).curve == Curve::straight);
}

TEST_CASE("readings closer than their doubt leave the side of the curve open") {
  CHECK_FALSE(start_direction(face, path, Angle::degrees(1)).curve_sure);
  CHECK(start_direction(face, path, Angle::degrees(0.8)).curve_sure);
  CHECK_FALSE(start_direction(face, face, Angle()).curve_sure);
}

TEST_CASE("curves have names") {
  CHECK(name_of(Curve::toward_lead) == "toward-lead");
  CHECK(name_of(Curve::straight) == "straight");
  CHECK(name_of(Curve::toward_trail) == "toward-trail");
}

}  // namespace rangecheck
