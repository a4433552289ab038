// SPDX-License-Identifier: MIT
// One array for the whole film, one entry for each person in each picture:
//   [{"image_id": 0 or "0.jpg", "keypoints": [x, y, c, …], "score": 2.9, "idx": 1}, …]
// Pictures without a person have no entry. `idx` is the estimator's identity of the person, alone
// or wrapped in lists; `score` is of the whole person and not a probability. c may be a confidence,
// 1 for all, or 0 and 2.
#include <map>

#include "intake/dialects/forms.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

bool recognises(Value document) {
  const auto first = document.front();
  return first && first->has("image_id") && first->has("keypoints");
}

/// Identity of the picture, as a text that sorts in natural order.
std::string picture_of(Value entry, const Spot& where) {
  const auto id = entry.find("image_id");
  if (!id) refuse(where, Fault::bad_value, "has no image_id");
  if (const auto text = id->text()) return std::string(*text);
  if (const auto number = id->whole()) return std::to_string(*number);
  refuse(where.at("image_id"), Fault::bad_value,
         "should be a whole number or a text, is " + kind_of(*id));
}

std::optional<int> identity_of(Value entry) {
  auto idx = entry.has("idx") ? entry.find("idx") : entry.find("track_id");
  while (idx && idx->is_list()) idx = idx->front();
  const auto number = idx ? idx->number() : std::nullopt;
  constexpr double largest = 1e9;
  if (!number || *number < 0 || *number > largest) return std::nullopt;
  return static_cast<int>(*number);
}

RawPerson person_of(Value entry, const Spot& where) {
  RawPerson person;
  const auto points = entry.find("keypoints");
  if (points && !points->is_empty()) {
    person.body = read_points(*points, Parts::xyc, where.at("keypoints"));
  }
  person.track = identity_of(entry);
  return person;
}

/// An entry and where it is.
struct Entry {
  Value value;
  std::size_t index;
};
using Pictures = std::map<std::string, std::vector<Entry>, NaturalOrder>;

Pictures entries_by_picture(Value document, const Spot& where) {
  Pictures pictures;
  std::size_t i = 0;
  for (const Value each : document.list()) {
    const Spot here = where.at(i);
    if (!each.is_object()) {
      refuse(here, Fault::bad_value, "should be an object, is " + kind_of(each));
    }
    pictures[picture_of(each, here)].push_back({each, i++});
  }
  return pictures;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "all pictures in one array";
  film.layouts = {"coco-17", "halpe-26", "halpe-136", "coco-wholebody-133"};
  std::vector<std::string> names;
  for (const auto& [picture, entries] : entries_by_picture(document, where)) {
    RawFrame frame;
    for (const Entry& entry : entries) {
      const Spot here = where.at(entry.index).in_frame(film.frames.size());
      frame.add(person_of(entry.value, here), here);
    }
    names.push_back(picture);
    film.add(std::move(frame), where);
  }
  const auto numbers = frame_numbers(names);
  for (std::size_t i = 0; i < numbers.size(); ++i) film.frames[i].number = numbers[i];
  return film;
}

}  // namespace

const Form coco_results = {
    "coco-results",
    "an array of {image_id, keypoints: [x, y, c, …]}, one entry a person and picture", recognises,
    read};

}  // namespace rangecheck::intake
