// SPDX-License-Identifier: MIT
// [[{"x": "0.1", "y": …, "z": …} * 20 or 25], …]: a list of points a frame, as programs dump what
// the first two generations of a games console's depth camera found. Metres, numbers or texts; x
// to the camera's left, y up, z away from it
// (learn.microsoft.com/previous-versions/windows/kinect/dn785530, Coordinate mapping).
#include <array>

#include "base/text.hpp"
#include "intake/dialects/forms.hpp"

namespace rangecheck::intake {
namespace {

/// Such a camera sees people from half a metre to four and a half away
/// (learn.microsoft.com/previous-versions/windows/kinect/dn785530); some room for its errors.
constexpr double nearest_m = 0.3, farthest_m = 9;

/// The number, also when it is written as a text; nothing for null and what is none.
std::optional<double> number_of(Value point, std::string_view key) {
  const auto value = point.find(key);
  if (!value) return std::nullopt;
  if (const auto text = value->text()) return parse_number(*text);
  return value->number();
}

bool is_point_before_camera(Value point) {
  if (!point.is_object() || point.size() != 3) return false;
  const auto x = number_of(point, "x"), y = number_of(point, "y"), z = number_of(point, "z");
  if (!x || !y || !z) return false;
  const bool is_missing = *x == 0 && *y == 0 && *z == 0;
  return is_missing || (*z > nearest_m && *z < farthest_m && std::abs(*x) < farthest_m &&
                        std::abs(*y) < farthest_m);
}

bool is_body(Value frame) {
  if (!frame.is_list() || (frame.size() != 20 && frame.size() != 25)) return false;
  for (const Value point : frame.list()) {
    if (!is_point_before_camera(point)) return false;
  }
  return true;
}

bool recognises(Value document) {
  for (const Value frame : document.list()) {
    if (!frame.is_empty()) return is_body(frame);
  }
  return false;
}

double coordinate(Value point, std::string_view key, const Spot& where) {
  const auto value = point.find(key);
  if (!value || value->kind() == Kind::null) return RawPoint::none;
  const auto number = number_of(point, key);
  if (number) return *number;
  const auto text = value->text();
  if (text && lower(*text) == "nan") return RawPoint::none;
  refuse(where.at(key), Fault::bad_value, "should be a number, is " + kind_of(*value));
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "one list of points a frame";
  film.layouts = {"kinect-20", "kinect-25"};
  film.space = {SpaceSource::depth_camera, SpaceAxes::camera_up, 1};
  for (const Value points : document.list()) {
    const std::size_t number = film.frames.size();
    const Spot here = where.at(number).in_frame(number);
    RawFrame frame{number, std::nullopt, {}};
    RawPerson person;
    for (const Value point : points.list()) {
      const Spot spot = here.at(person.space.size());
      // The camera's left is the picture's.
      person.space.push_back({-coordinate(point, "x", spot), coordinate(point, "y", spot),
                              coordinate(point, "z", spot), RawPoint::none});
    }
    if (!person.space.empty()) frame.add(std::move(person), here);
    film.add(std::move(frame), here);
  }
  return film;
}

}  // namespace

const Form depth_camera_points = {
    "depth-camera-points",
    "[[{\"x\", \"y\", \"z\"}, …], …]: 20 or 25 points in space a frame from a depth camera, in "
    "metres",
    recognises, read};

}  // namespace rangecheck::intake
