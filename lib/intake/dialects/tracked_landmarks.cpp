// SPDX-License-Identifier: MIT
// The answer of a video service: people as tracks, each with its own list of moments:
//   {"annotationResults": [{"personDetectionAnnotations": [{"tracks": [{"timestampedObjects": [
//     {"timeOffset": "1.500s", "landmarks": [
//       {"name": "left_hip", "point": {"x": 0.41, "y": 0.52}, "confidence": 0.9}]}]}]}]}]}
// Coordinates are fractions of the picture. Values of 0 are left out, and keys may be in
// snake_case.
#include <array>
#include <map>

#include "base/text.hpp"
#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

/// The two spellings of a key.
using Key = std::array<std::string_view, 2>;
constexpr Key results_key = {"annotationResults", "annotation_results"};
constexpr Key people_key = {"personDetectionAnnotations", "person_detection_annotations"};
constexpr Key moments_key = {"timestampedObjects", "timestamped_objects"};
constexpr Key time_key = {"timeOffset", "time_offset"};

bool recognises(Value document) {
  const auto key = first_key(document, results_key);
  if (!key) return false;
  for (const Value result : document.find(*key)->list()) {
    if (first_key(result, people_key)) return true;
  }
  return false;
}

double number_or_0(Value object, std::string_view key, const Spot& where) {
  const auto value = object.find(key);
  return value ? number_or_null(*value, where.at(key)).value_or(0) : 0;
}

/// "1.500s", or {"seconds": 1, "nanos": 500000000}; nothing there is 0.
double seconds_of(Value moment, const Spot& where) {
  const auto key = first_key(moment, time_key);
  if (!key) return 0;
  const Value time = *moment.find(*key);
  const Spot here = where.at(*key);
  if (time.is_object()) {
    return number_or_0(time, "seconds", here) + 1e-9 * number_or_0(time, "nanos", here);
  }
  const auto text = time.text();
  const auto number =
      text && text->ends_with('s') ? parse_number(text->substr(0, text->size() - 1)) : std::nullopt;
  if (!number)
    refuse(here, Fault::bad_value, "should be a time like \"1.500s\", is " + kind_of(time));
  return *number;
}

RawPoint point_of(Value landmark, const Spot& where) {
  RawPoint point;
  point.score = number_or_0(landmark, "confidence", where);
  const auto at = landmark.find("point");
  if (!at || !at->is_object()) return {};
  const Spot here = where.at("point");
  point.x = number_or_0(*at, "x", here);
  point.y = number_or_0(*at, "y", here);
  return point;
}

/// The film as it grows, frames by time.
class Reading {
 public:
  void add_track(Value track, const Spot& where) {
    const auto key = first_key(track, moments_key);
    if (!key) return;
    const Spot list = where.at(*key);
    std::size_t i = 0;
    for (const Value moment : track.find(*key)->list()) add_moment(moment, list.at(i++));
    ++tracks_;
  }

  RawFilm film(const Spot& where) {
    RawFilm film;
    film.form = "people as tracks with time offsets";
    film.fractions = true;
    film.names = names_.all();
    for (auto& [time_s, frame] : frames_) {
      frame.number = film.frames.size();
      frame.time = Duration::seconds(time_s);
      film.add(std::move(frame), where);
    }
    return film;
  }

 private:
  void add_moment(Value moment, const Spot& where) {
    RawFrame& frame = frames_[seconds_of(moment, where)];
    const auto landmarks = moment.find("landmarks");
    if (!landmarks) return;
    RawPerson person;
    person.track = tracks_;
    const Spot list = where.at("landmarks");
    std::size_t i = 0;
    for (const Value landmark : landmarks->list()) {
      const Spot here = list.at(i++);
      const auto name = landmark.find("name");
      if (!name || !name->text()) refuse(here, Fault::bad_value, "has no name");
      const std::size_t index = names_.index_of(*name->text(), here);
      if (person.body.size() <= index) person.body.resize(index + 1);
      person.body[index] = point_of(landmark, here);
    }
    frame.add(std::move(person), where);
  }

  Names names_;
  std::map<double, RawFrame> frames_;
  int tracks_ = 0;
};

/// Calls use(entry, where) for each entry of the list under `key`.
template <class Use>
void each_under(Value object, const Key& either, const Spot& where, Use use) {
  const auto key = first_key(object, either);
  if (!key) return;
  const Spot list = where.at(*key);
  std::size_t i = 0;
  for (const Value entry : object.find(*key)->list()) use(entry, list.at(i++));
}

RawFilm read(Value document, const Spot& where) {
  Reading reading;
  each_under(document, results_key, where, [&](Value result, const Spot& in_result) {
    each_under(result, people_key, in_result, [&](Value person, const Spot& in_person) {
      each_under(person, {"tracks", "tracks"}, in_person,
                 [&](Value track, const Spot& here) { reading.add_track(track, here); });
    });
  });
  return reading.film(where);
}

}  // namespace

const Form tracked_landmarks = {
    "tracked-landmarks",
    "a video service's answer: {annotationResults: [{personDetectionAnnotations: [{tracks: "
    "[{timestampedObjects: [{timeOffset, landmarks: [{name, point, confidence}]}]}]}]}]}",
    recognises, read};

}  // namespace rangecheck::intake
