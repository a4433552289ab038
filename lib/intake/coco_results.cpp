// SPDX-License-Identifier: MIT
// One array for the whole film, one entry for each person in each picture:
//   [{"image_id": 0 or "0.jpg", "keypoints": [x, y, c, … 17 times], "score": 2.9, "idx": 1}, …]
// Pictures without a person have no entry. `idx` is the estimator's identity of the person, alone
// or wrapped in lists; `score` is of the whole person and not a probability.
#include <map>

#include "base/text.hpp"
#include "intake/dialect.hpp"
#include "intake/points.hpp"

namespace rangecheck::intake {
namespace {

bool recognises(const Json& document) {
  if (!document.is_array() || document.empty()) return false;
  return member(document.front(), "image_id") != nullptr &&
         member(document.front(), "keypoints") != nullptr;
}

/// Identity of the picture, as a text that sorts in natural order.
std::string picture_of(const Json& entry, const Spot& where) {
  const Json* id = member(entry, "image_id");
  if (id == nullptr) refuse(where, Fault::bad_value, "has no image_id");
  if (id->is_string()) return id->get<std::string>();
  if (id->is_number_integer()) return std::to_string(id->get<long long>());
  refuse(where.at("image_id"), Fault::bad_value,
         "should be a whole number or a text, is " + kind_of(*id));
}

std::optional<int> track_of(const Json& entry) {
  const Json* idx = member(entry, "idx");
  while (idx != nullptr && idx->is_array() && !idx->empty()) idx = &idx->front();
  constexpr double largest = 1e9;
  if (idx == nullptr || !idx->is_number()) return std::nullopt;
  const auto value = idx->get<double>();
  if (value < 0 || value > largest) return std::nullopt;
  return static_cast<int>(value);
}

Person person_of(const Json& entry, const Spot& where) {
  Person person;
  const Json* points = member(entry, "keypoints");
  if (points == nullptr || is_empty(*points)) return person;
  const Spot here = where.at("keypoints");
  if (!points->is_array()) {
    refuse(here, Fault::bad_value, "should be an array of numbers, is " + kind_of(*points));
  }
  if (points->size() != 3 * coco_17.size()) {
    refuse(here, Fault::not_a_film,
           "has " + std::to_string(points->size()) +
               " numbers; in this form 51 are understood (17 points with x, y, confidence)",
           "export the 17-point set, or write the plain form that README shows");
  }
  read_triples(*points, coco_17, here, person);
  person.track = track_of(entry);
  return person;
}

struct NaturalOrder {
  bool operator()(const std::string& a, const std::string& b) const { return natural_less(a, b); }
};

/// Where in the document the people of each picture are.
std::map<std::string, std::vector<std::size_t>, NaturalOrder> entries_by_picture(
    const Json& document, const Spot& where) {
  std::map<std::string, std::vector<std::size_t>, NaturalOrder> pictures;
  for (std::size_t i = 0; i < document.size(); ++i) {
    const Spot here = where.at(i);
    if (!document[i].is_object()) {
      refuse(here, Fault::bad_value, "should be an object, is " + kind_of(document[i]));
    }
    pictures[picture_of(document[i], here)].push_back(i);
  }
  return pictures;
}

Film read(const Json& document, const Spot& where) {
  Film film;
  film.dialect = "17 points a person, all pictures in one array";
  std::vector<std::string> names;
  for (const auto& [picture, entries] : entries_by_picture(document, where)) {
    Frame frame;
    for (const std::size_t entry : entries) {
      const Spot here = where.at(entry);
      Person person = person_of(document[entry], here.in_frame(film.frames.size()));
      if (has_points(person)) frame.people.push_back(std::move(person));
    }
    names.push_back(picture);
    film.frames.push_back(std::move(frame));
  }
  const auto numbers = frame_numbers(names);
  for (std::size_t i = 0; i < numbers.size(); ++i) film.frames[i].number = numbers[i];
  return film;
}

}  // namespace

const Dialect coco_results = {
    "an array of {image_id, keypoints: [x, y, c, …]} with 17 points, one entry a person and "
    "picture",
    recognises, read};

}  // namespace rangecheck::intake
