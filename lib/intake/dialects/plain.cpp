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
// or, as JSON Lines, the first line without "frames" and then one line for each frame; or as a
// table (see csv.cpp).
// Points are [x, y] or [x, y, confidence], x right and y down from the top left corner, in pixels
// (or all in fractions of the picture). Space points are [x, y, z] or [x, y, z, confidence] in
// metres: right, down, away from the camera. Names are anatomical: left_ or right_ with eye, ear,
// shoulder, elbow, wrist, hip, knee, ankle, heel, big_toe, small_toe, thumb_1 … little_4; and nose,
// neck, head_top, mid_spine, pelvis, ball, grip_end, hands_mid, shaft_mid, hosel, club_toe. A point
// that wasn't seen is left out or null. Only "format", "version", "frames" and "points" are
// required ({} where there is no picture); "frame" counts from 0 and increases, "time" is in
// seconds.
//
// The first object may also say, and does when `convert` writes it:
//   "estimator": "points-33"           whose systematic errors these are, where they are known
//   "space-source": "depth-camera"     what saw the points in space: one-camera (else),
//                                      depth-camera, several-cameras (level, in metres) or
//                                      uncalibrated-cameras (as one of them stood, of any size)
//   "picture-is-drawn": true           there was no picture: its points were drawn from those in
//                                      space and are no evidence of their own
//   "notes": ["…"]                     what was assumed in reading, for the report
//   "read-from": "17 points a person"  the form that it was converted from: then points are in
//                                      pixels, and all that are listed were seen, at whatever
//                                      confidence, a place of 0 or a time that stands still
#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "base/text.hpp"
#include "intake/dialects/forms.hpp"
#include "intake/film_words.hpp"
#include "intake/joint_names.hpp"

namespace rangecheck::intake {
namespace {

bool is_header(Value value) {
  const auto format = value.find("format");
  return format && format->text() == plain_format;
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

/// [x, y] or, with `in_space`, [x, y, z], and perhaps a confidence; a null in it or for it: not
/// seen.
RawPoint point_of(Value value, bool in_space, const Spot& where) {
  if (value.kind() == Kind::null) return {};
  const std::size_t least = in_space ? 3 : 2;
  if (!value.is_list() || value.size() < least || value.size() > least + 1) {
    refuse(where, Fault::bad_value,
           in_space ? "should be [x, y, z] or [x, y, z, confidence]"
                    : "should be [x, y] or [x, y, confidence]");
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
  if (in_space) point.z = numbers[2];
  if (numbers.size() > least) point.score = numbers[least];
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
    if (std::abs(*track) > largest || *track != std::trunc(*track)) {
      refuse(where.at("track"), Fault::bad_value, "should be a whole number");
    }
    person.track = static_cast<int>(*track);
  }
  const auto points = value.find("points");
  if (!points) refuse(where, Fault::bad_value, "has no points");
  if (!points->is_empty()) person.body = points_of(*points, false, where.at("points"));
  if (const auto space = value.find("space")) {
    person.space = points_of(*space, true, where.at("space"));
  }
  return person;
}

RawFrame frame_of(Value value, const Spot& where, const RawFilm& film) {
  const RawFrame* previous = film.frames.empty() ? nullptr : &film.frames.back();
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
    const bool stands = previous != nullptr && previous->time && *previous->time >= *frame.time;
    if (stands && !film.settled) {
      refuse(where.at("time"), Fault::bad_value, "should be later than that of the frame before");
    }
  }
  const auto people = value.find("people");
  if (!people || people->is_empty()) return frame;
  const Spot list = where.at("people");
  if (!people->is_list()) refuse(list, Fault::bad_value, "should be an array of people");
  std::size_t i = 0;
  for (const Value each : people->list()) {
    const Spot here = list.at(i++);
    frame.add(person_of(each, here), here);
  }
  return frame;
}

/// The text under `key`; nothing when there is none.
std::optional<std::string> text_at(Value object, std::string_view key, const Spot& where) {
  const auto value = object.find(key);
  if (!value) return std::nullopt;
  const auto text = value->text();
  if (!text) refuse(where.at(key), Fault::bad_value, "should be a text, is " + kind_of(*value));
  return std::string(*text);
}

/// What `find` makes of the word under `key`, or `otherwise` where there is none.
template <class Word, class Find>
Word word_at(Value object, std::string_view key, Word otherwise, Find find, const Spot& where) {
  const auto text = text_at(object, key, where);
  if (!text) return otherwise;
  const std::optional<Word> word = find(*text);
  if (!word) {
    refuse(where.at(key), Fault::bad_value, "there is no such word: " + rangecheck::quoted(*text));
  }
  return *word;
}

/// What only those write who had a whole film.
void read_facts(Value header, const Spot& where, RawFilm& film) {
  film.estimator = word_at(header, fact::estimator, Estimator::unknown, estimator_named, where);
  film.space.source =
      word_at(header, fact::space_source, SpaceSource::one_camera, space_source_named, where);
  const auto drawn = header.find(fact::picture_is_drawn);
  if (drawn && drawn->kind() != Kind::flag) {
    refuse(where.at(fact::picture_is_drawn), Fault::bad_value, "should be true or false");
  }
  film.picture_is_drawn = drawn && drawn->is_true();
  if (const auto read_from = text_at(header, fact::read_from, where)) {
    film.form = *read_from;
    film.settled = true;
  }
  const auto notes = header.find("notes");
  const Spot list = where.at("notes");
  if (notes && !notes->is_list()) refuse(list, Fault::bad_value, "should be an array of texts");
  if (!notes) return;
  for (const Value note : notes->list()) {
    const auto text = note.text();
    if (!text) refuse(list.at(film.notes.size()), Fault::bad_value, "should be a text");
    film.notes.push_back(as_written(std::string(*text)));
  }
}

void read_header(Value header, const Spot& where, RawFilm& film) {
  check_keys(header,
             {"format", "version", "image", fact::frame_rate, "frames", fact::estimator,
              fact::space_source, fact::picture_is_drawn, "notes", fact::read_from},
             where);
  if (number_at(header, "version", where) != 1) {
    refuse(where.at("version"), Fault::not_a_film, "should be 1, the only version there is so far");
  }
  if (const auto image = header.find("image")) {
    const Spot here = where.at("image");
    check_keys(*image, {"width", "height"}, here);
    film.image = ImageSize{positive_at(*image, "width", here), positive_at(*image, "height", here)};
  }
  if (header.has(fact::frame_rate)) {
    film.frame_rate_hz = positive_at(header, fact::frame_rate, where);
  }
  read_facts(header, where, film);
}

/// The frames of a list, from its entry `first` on.
void read_frames(Value list, std::size_t first, const Spot& where, RawFilm& film) {
  std::size_t i = 0;
  for (const Value each : list.list()) {
    if (i++ < first) continue;
    const Spot here = where.at(i - 1).in_frame(film.frames.size());
    film.add(frame_of(each, here, film), here);
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
