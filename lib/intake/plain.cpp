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
#include <array>

#include "base/text.hpp"
#include "intake/dialect.hpp"
#include "intake/points.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view format_name = "rangecheck-landmarks";

bool recognises(const Json& document) {
  const Json* format = member(document, "format");
  return format != nullptr && format->is_string() &&
         format->get_ref<const std::string&>() == format_name;
}

void check_keys(const Json& object, std::initializer_list<std::string_view> known,
                const Spot& where) {
  if (!object.is_object()) {
    refuse(where, Fault::bad_value, "should be an object, is " + kind_of(object));
  }
  for (const auto& [key, value] : object.items()) {
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    const std::string near = nearest(key, {known.begin(), known.size()});
    refuse(where.at(key), Fault::bad_value, "there is no such key",
           near.empty() ? "" : "did you mean " + near + "?");
  }
}

std::optional<double> number_at(const Json& object, std::string_view key, const Spot& where) {
  const Json* value = member(object, key);
  return value == nullptr ? std::nullopt : number_or_null(*value, where.at(key));
}

double positive_at(const Json& object, std::string_view key, const Spot& where) {
  const auto value = number_at(object, key, where);
  if (!value || *value <= 0) {
    refuse(where.at(key), Fault::bad_value, "should be a number above 0");
  }
  return *value;
}

/// "left_knee", "nose" → the landmark of a right-handed golfer.
std::optional<LandmarkId> find_point(std::string_view name) {
  Side side = Side::centre;
  if (name.starts_with("left_")) side = Side::lead;
  if (name.starts_with("right_")) side = Side::trail;
  if (side != Side::centre) name.remove_prefix(name.find('_') + 1);
  const auto joint = find_joint(name);
  if (!joint || is_paired(*joint) != (side != Side::centre)) return std::nullopt;
  return LandmarkId{side, *joint};
}

[[noreturn]] void refuse_name(std::string_view name, const Spot& where) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const std::string joint(key_of(id.joint));
    names.push_back(id.side == Side::centre ? joint
                    : id.side == Side::lead ? "left_" + joint
                                            : "right_" + joint);
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  const std::string near = nearest(name, views);
  refuse(where, Fault::bad_value, "there is no point of this name",
         near.empty() ? "sides are written left_ and right_" : "did you mean " + near + "?");
}

/// The numbers of a point; empty for null or when any of the first `needed` is null.
std::vector<double> numbers_of(const Json& value, std::size_t needed, std::size_t most,
                               const Spot& where) {
  if (value.is_null()) return {};
  if (!value.is_array() || value.size() < needed || value.size() > most) {
    refuse(where, Fault::bad_value,
           needed == most ? "should be [x, y, z]" : "should be [x, y] or [x, y, confidence]");
  }
  std::vector<double> numbers;
  for (std::size_t i = 0; i < value.size(); ++i) {
    const auto number = number_or_null(value[i], where.at(i));
    if (!number) return {};
    numbers.push_back(*number);
  }
  return numbers;
}

void read_points(const Json& points, const Spot& where, Person& person) {
  if (!points.is_object()) {
    refuse(where, Fault::bad_value, "should be an object of points, is " + kind_of(points));
  }
  for (const auto& [name, value] : points.items()) {
    const Spot here = where.at(name);
    const auto id = find_point(name);
    if (!id) refuse_name(name, here);
    const auto numbers = numbers_of(value, 2, 3, here);
    const bool seen = numbers.size() == 2 || (numbers.size() == 3 && numbers[2] > 0);
    if (!seen) continue;
    person.image[*id] = sighting_of(numbers[0], numbers[1], numbers.size() == 3 ? numbers[2] : 1);
  }
}

void read_space(const Json& points, const Spot& where, Person& person) {
  if (!points.is_object()) {
    refuse(where, Fault::bad_value, "should be an object of points, is " + kind_of(points));
  }
  for (const auto& [name, value] : points.items()) {
    const Spot here = where.at(name);
    const auto id = find_point(name);
    if (!id) refuse_name(name, here);
    const auto numbers = numbers_of(value, 3, 3, here);
    if (numbers.empty()) continue;
    person.space[*id] = SpatialSighting{numbers[0], numbers[1], numbers[2], 1};
  }
}

Person person_of(const Json& value, const Spot& where) {
  check_keys(value, {"track", "points", "space"}, where);
  Person person;
  if (const auto track = number_at(value, "track", where)) {
    constexpr double largest = 1e9;
    if (*track < 0 || *track > largest) {
      refuse(where.at("track"), Fault::bad_value, "should be a whole number from 0");
    }
    person.track = static_cast<int>(*track);
  }
  const Json* points = member(value, "points");
  if (points == nullptr) refuse(where, Fault::bad_value, "has no points");
  read_points(*points, where.at("points"), person);
  if (const Json* space = member(value, "space")) read_space(*space, where.at("space"), person);
  return person;
}

Frame frame_of(const Json& value, const Spot& where, const Frame* previous) {
  check_keys(value, {"frame", "time", "people"}, where);
  Frame frame;
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
  const Json* people = member(value, "people");
  if (people == nullptr || is_empty(*people)) return frame;
  const Spot list = where.at("people");
  if (!people->is_array()) refuse(list, Fault::bad_value, "should be an array of people");
  for (std::size_t i = 0; i < people->size(); ++i) {
    Person person = person_of((*people)[i], list.at(i));
    if (has_points(person)) frame.people.push_back(std::move(person));
  }
  return frame;
}

void read_header(const Json& document, const Spot& where, Film& film) {
  check_keys(document, {"format", "version", "image", "frame-rate", "frames"}, where);
  if (number_at(document, "version", where) != 1) {
    refuse(where.at("version"), Fault::not_a_film, "should be 1, the only version there is so far");
  }
  if (const Json* image = member(document, "image")) {
    const Spot here = where.at("image");
    check_keys(*image, {"width", "height"}, here);
    film.image = ImageSize{positive_at(*image, "width", here), positive_at(*image, "height", here)};
  }
  if (member(document, "frame-rate") != nullptr) {
    film.frame_rate_hz = positive_at(document, "frame-rate", where);
  }
}

Film read(const Json& document, const Spot& where) {
  Film film;
  film.dialect = "plain form";
  read_header(document, where, film);
  const Json* frames = member(document, "frames");
  const Spot list = where.at("frames");
  if (frames == nullptr || !frames->is_array()) {
    refuse(list, Fault::bad_value, "should be an array of frames");
  }
  for (std::size_t i = 0; i < frames->size(); ++i) {
    const Frame* previous = film.frames.empty() ? nullptr : &film.frames.back();
    const Spot here = list.at(i);
    film.frames.push_back(frame_of((*frames)[i], here.in_frame(i), previous));
  }
  return film;
}

}  // namespace

const Dialect plain = {
    "the plain form: {\"format\": \"rangecheck-landmarks\", \"version\": 1, \"frames\": […]} with "
    "named points, or JSON Lines of it",
    recognises, read};

bool is_plain_lines(std::string_view text) {
  const auto end = text.find('\n');
  if (end == std::string_view::npos || trim(text.substr(end)).empty()) return false;
  const auto first = trim(text.substr(0, end));
  // A document that is merely spread over lines has no whole object on its first.
  return first.starts_with('{') && first.ends_with('}') &&
         first.find(format_name) != std::string_view::npos && Json::accept(first);
}

Json join_plain_lines(std::string_view text, const Spot& where) {
  const auto lines = split(text, '\n');
  Json document = parse_document(lines.front(), where);
  Json& frames = document["frames"] = Json::array();
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (trim(lines[i]).empty()) continue;
    const Spot here = where.at("frames");
    frames.push_back(parse_document(lines[i], here.at(frames.size()), static_cast<int>(i) + 1));
  }
  return document;
}

}  // namespace rangecheck::intake
