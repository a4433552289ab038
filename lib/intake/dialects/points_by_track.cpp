// SPDX-License-Identifier: MIT
// One object for the whole film, each frame an object of people under the numbers of their tracks:
//   {"keypoints": [{"0": [[y, x, score], …], "1": […]}, …], "skeleton": {"0": "nose", …}}
// y comes before x. `skeleton` has the names of the points by index.
#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

bool is_number(std::string_view key) {
  return !key.empty() && key.find_first_not_of("0123456789") == std::string_view::npos;
}

bool is_list_of_points(Value value) {
  if (!value.is_list()) return false;
  const auto first = first_filled(value);
  return first && first->is_list() && first->size() == 3 && is_point(*first);
}

bool is_frame(Value entry) {
  if (!entry.is_object()) return false;
  for (const auto [key, value] : entry.members()) return is_number(key) && is_list_of_points(value);
  return false;
}

bool recognises(Value document) {
  const auto frames = document.find("keypoints");
  if (!frames || !frames->is_list()) return false;
  const auto first = first_filled(*frames);
  return first && is_frame(*first);
}

std::vector<std::string> names_of(Value document) {
  std::vector<std::string> names;
  const auto skeleton = document.find("skeleton");
  if (!skeleton) return names;
  for (std::size_t i = 0; i < skeleton->size(); ++i) {
    const auto name = skeleton->find(std::to_string(i));
    const auto text = name ? name->text() : std::nullopt;
    if (!text) return {};
    names.emplace_back(*text);
  }
  return names;
}

RawFrame read_frame(Value entry, const Spot& where) {
  RawFrame frame;
  if (!entry.is_empty() && !entry.is_object()) {
    refuse(where, Fault::bad_value, "should be an object of people, is " + kind_of(entry));
  }
  for (const auto [key, list] : entry.members()) {
    const Spot here = where.at(key);
    if (!is_number(key) || key.size() > 9) {
      refuse(here, Fault::bad_value, "is no number of a track");
    }
    if (list.is_empty()) continue;
    RawPerson person;
    person.body = read_list(list, Parts::yxc, here);
    person.track = std::stoi(std::string(key));
    frame.add(std::move(person), here);
  }
  return frame;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "people by track";
  film.names = names_of(document);
  film.layouts = {"coco-25"};
  const Spot list = where.at("keypoints");
  for (const Value entry : document.find("keypoints")->list()) {
    const std::size_t i = film.frames.size();
    const Spot here = list.at(i);
    film.add(read_frame(entry, here.in_frame(i)), here);
    film.frames.back().number = i;
  }
  return film;
}

}  // namespace

const Form points_by_track = {"points-by-track",
                              "people by track: {keypoints: [{\"0\": [[y, x, score], …]}, …], "
                              "skeleton: {\"0\": \"nose\", …}}",
                              recognises, read};

}  // namespace rangecheck::intake
