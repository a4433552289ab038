// SPDX-License-Identifier: MIT
// A person is an object with one flat list of points:
//   {"keypoints": [x, y, c, …], "bbox": [x, y, w, h], "score": 0.8, "category_id": 1}
// A picture is a list of people, and a film the pictures' lists by their names, or JSON Lines of
// {"frame": 1, "predictions": [person, …]}. A point that was not found is 0, -3, 0 or 0, 0, 0.
#include <array>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 2> people_keys = {"predictions", "annotations"};

bool is_person(Value entry) {
  const auto points = entry.find("keypoints");
  if (!points || entry.has("image_id") || entry.has("keypoint_scores")) return false;
  const auto first = points->front();
  return first && first->kind() != Kind::object && !first->is_list() && points->size() % 3 == 0;
}

bool is_frame(Value entry) { return holds_people(entry, is_person, people_keys); }

constexpr FrameShape shape = {is_frame, is_person};

bool recognises(Value document) { return holds_frames(document, shape); }

/// Identities, which this form writes under names of its own.
std::optional<int> identity_of(Value person) {
  for (const std::string_view key : {"id_", "idx"}) {
    const auto value = person.find(key);
    const auto number = value ? value->whole() : std::nullopt;
    constexpr long long largest = 1'000'000'000;
    if (number && *number >= 0 && *number <= largest) return static_cast<int>(*number);
  }
  return track_of(person);
}

RawPerson person_of(Value value, const Spot& where) {
  RawPerson person;
  const auto points = value.find("keypoints");
  if (!points) refuse(where, Fault::bad_value, "should be a person with keypoints");
  if (points->is_empty()) return person;
  person.body = read_flat(*points, Parts::xyc, where.at("keypoints"));
  person.track = identity_of(value);
  return person;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "one list of people a picture";
  film.layouts = {"coco-17", "coco-wholebody-133", "halpe-26", "halpe-136"};
  const auto frame = [](Value entry, const Spot& here, RawFrame& into) {
    read_people(entry, here, is_person, people_keys, person_of, into);
  };
  read_frames(document, where, shape, frame, film);
  return film;
}

}  // namespace

const Form flat_keypoints = {
    "flat-keypoints",
    "people as {keypoints: [x, y, c, …]}: a list a picture, such lists by the pictures' names, or "
    "{frame, predictions} as JSON Lines",
    recognises, read};

}  // namespace rangecheck::intake
