// SPDX-License-Identifier: MIT
// The plain form: for people who write landmarks by hand or from a program of their own.
//
//   {"format": "rangecheck-landmarks", "version": 1,
//    "image": {"width": 1080, "height": 1920},
//    "frame-rate": 240,
//    "frames": [
//      {"frame": 0, "time": 0.0, "people": [
//        {"track": 1,
//         "points": {"left_knee": [612.5, 1210.0, 0.97], "ball": [640, 1540]},
//         "space": {"left_knee": [0.12, 0.48, -0.05]}}]}]}
//
// or, as JSON Lines, the first line without "frames" and then one line for each frame.
// Points are [x, y] or [x, y, confidence], x right and y down from the top left corner, in pixels
// (or all in fractions of the picture). Space points are [x, y, z] in metres: right, down, away
// from the camera. Names are anatomical: left_ or right_ with eye, ear, shoulder, elbow, wrist,
// hip, knee, ankle, heel, big_toe, small_toe, thumb_1 … little_4; and nose, neck, head_top,
// mid_spine, pelvis, ball, grip_end, hands_mid, shaft_mid, hosel, club_toe. A point that wasn't
// seen is left out or null. Only "format", "version", "frames" and "points" are required; "frame"
// counts from 0 and increases, "time" is in seconds.
#include <algorithm>
#include <initializer_list>

#include "base/text.hpp"
#include "intake/dialects/forms.hpp"
#include "intake/joint_names.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view format_name = "rangecheck-landmarks";

bool is_header(Value value) {
  const auto format = value.find("format");
  return format && format->text() == format_name;
}

/// JSON Lines come as a list whose first entry is the header.
bool recognises(Value document) {
  const auto first = document.front();
  return is_header(document) || (first && is_header(*first));
}

void check_keys(Value object, std::initializer_list<std::string_view> known, const Spot& where) {
  if (!object.is_object()) {
    refuse(where, Fault::bad_value, "should be an object, is " + kind_of(object));
  }
  for (const auto [key, value] : object.members()) {
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    const std::string near = nearest(key, {known.begin(), known.size()});
    refuse(where.at(key), Fault::bad_value, "there is no such key",
           near.empty() ? "" : "did you mean " + near + "?");
  }
}

std::optional<double> number_at(Value object, std::string_view key, const Spot& where) {
  const auto value = object.find(key);
  return value ? number_or_null(*value, where.at(key)) : std::nullopt;
}

double positive_at(Value object, std::string_view key, const Spot& where) {
  const auto value = number_at(object, key, where);
  if (!value || *value <= 0) {
    refuse(where.at(key), Fault::bad_value, "should be a number above 0");
  }
  return *value;
}

std::size_t index_of_name(std::string_view name, const Spot& where) {
  if (const auto id = point_called(name)) return index_of(*id);
  const std::string near = did_you_mean(name);
  refuse(where, Fault::bad_value, "there is no point of this name",
         near.empty() ? "sides are written left_ and right_" : near);
}

/// [x, y], [x, y, confidence] or, with `in_space`, [x, y, z]; a null in it or for it: not seen.
RawPoint point_of(Value value, bool in_space, const Spot& where) {
  if (value.kind() == Kind::null) return {};
  const std::size_t least = in_space ? 3 : 2;
  if (!value.is_list() || value.size() < least || value.size() > 3) {
    refuse(where, Fault::bad_value,
           in_space ? "should be [x, y, z]" : "should be [x, y] or [x, y, confidence]");
  }
  std::vector<double> numbers;
  bool seen = true;
  for (const Value each : value.list()) {
    const auto number = number_or_null(each, where.at(numbers.size()));
    seen = seen && number;
    numbers.push_back(number.value_or(0));
  }
  if (!seen) return {};
  RawPoint point{numbers[0], numbers[1], RawPoint::none, RawPoint::none};
  if (numbers.size() > 2) (in_space ? point.z : point.score) = numbers[2];
  return point;
}

std::vector<RawPoint> points_of(Value points, bool in_space, const Spot& where) {
  if (!points.is_object()) {
    refuse(where, Fault::bad_value, "should be an object of points, is " + kind_of(points));
  }
  std::vector<RawPoint> list(landmark_count);
  for (const auto [name, value] : points.members()) {
    const Spot here = where.at(name);
    list[index_of_name(name, here)] = point_of(value, in_space, here);
  }
  return list;
}

RawPerson person_of(Value value, const Spot& where) {
  check_keys(value, {"track", "points", "space"}, where);
  RawPerson person;
  if (const auto track = number_at(value, "track", where)) {
    constexpr double largest = 1e9;
    if (*track < 0 || *track > largest) {
      refuse(where.at("track"), Fault::bad_value, "should be a whole number from 0");
    }
    person.track = static_cast<int>(*track);
  }
  const auto points = value.find("points");
  if (!points) refuse(where, Fault::bad_value, "has no points");
  person.body = points_of(*points, false, where.at("points"));
  if (const auto space = value.find("space")) {
    person.space = points_of(*space, true, where.at("space"));
  }
  return person;
}

RawFrame frame_of(Value value, const Spot& where, const RawFrame* previous) {
  check_keys(value, {"frame", "time", "people"}, where);
  RawFrame frame;
  const double next = previous == nullptr ? 0 : static_cast<double>(previous->number) + 1;
  const double number = number_at(value, "frame", where).value_or(next);
  constexpr double largest = 1e15;  // whole numbers are exact in a double up to here
  if (number < next || number > largest ||
      number != static_cast<double>(static_cast<std::size_t>(number))) {
    refuse(where.at("frame"), Fault::bad_value, "should be a whole number that increases");
  }
  frame.number = static_cast<std::size_t>(number);
  if (const auto time = number_at(value, "time", where)) {
    frame.time = Duration::seconds(*time);
    if (previous != nullptr && previous->time && *previous->time >= *frame.time) {
      refuse(where.at("time"), Fault::bad_value, "should be later than that of the frame before");
    }
  }
  const auto people = value.find("people");
  if (!people || people->is_empty()) return frame;
  const Spot list = where.at("people");
  if (!people->is_list()) refuse(list, Fault::bad_value, "should be an array of people");
  std::size_t i = 0;
  for (const Value each : people->list()) frame.people.push_back(person_of(each, list.at(i++)));
  return frame;
}

void read_header(Value header, const Spot& where, RawFilm& film) {
  check_keys(header, {"format", "version", "image", "frame-rate", "frames"}, where);
  if (number_at(header, "version", where) != 1) {
    refuse(where.at("version"), Fault::not_a_film, "should be 1, the only version there is so far");
  }
  if (const auto image = header.find("image")) {
    const Spot here = where.at("image");
    check_keys(*image, {"width", "height"}, here);
    film.image = ImageSize{positive_at(*image, "width", here), positive_at(*image, "height", here)};
  }
  if (header.has("frame-rate")) film.frame_rate_hz = positive_at(header, "frame-rate", where);
}

/// The frames of a list, from its entry `first` on.
void read_frames(Value list, std::size_t first, const Spot& where, RawFilm& film) {
  std::size_t i = 0;
  for (const Value each : list.list()) {
    if (i++ < first) continue;
    const RawFrame* previous = film.frames.empty() ? nullptr : &film.frames.back();
    const Spot here = where.at(i - 1);
    film.frames.push_back(frame_of(each, here.in_frame(film.frames.size()), previous));
  }
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "plain form";
  film.names = point_names();
  film.partial = true;
  if (document.is_list()) {
    read_header(*document.front(), where.at(std::size_t{0}), film);
    read_frames(document, 1, where, film);
    return film;
  }
  read_header(document, where, film);
  const auto frames = document.find("frames");
  const Spot list = where.at("frames");
  if (!frames || !frames->is_list()) {
    refuse(list, Fault::bad_value, "should be an array of frames");
  }
  read_frames(*frames, 0, list, film);
  return film;
}

}  // namespace

const Form plain = {
    "plain",
    "the plain form: {\"format\": \"rangecheck-landmarks\", \"version\": 1, \"frames\": […]} with "
    "named points, or JSON Lines of it",
    recognises, read};

}  // namespace rangecheck::intake
