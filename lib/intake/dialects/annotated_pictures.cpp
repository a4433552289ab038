// SPDX-License-Identifier: MIT
// Marks that people, or programs in their place, put on pictures, as data sets and labelling tools
// keep them:
//   {"images": [{"id": 785, "file_name": "0785.jpg", "width": 640, "height": 425}, …],
//    "categories": [{"id": 1, "keypoints": ["nose", …]}],
//    "annotations": [{"image_id": 785, "category_id": 1, "keypoints": [x, y, v, …],
//                     "foot_kpts": […], "lefthand_kpts": […], "righthand_kpts": […],
//                     "keypoints_3d": [x, y, z, v, …], "track_id": 1}, …]}
// v is 0 for a point that isn't there (at 0, 0), 1 for a hidden and 2 for a visible one. Frames are
// the images in their order; those without an annotation show nobody. Feet of the 133-point set are
// in a list of their own. Points in space are in metres with z up.
#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "intake/choose_layout.hpp"
#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 17> names_17 = {
    "nose",           "left_eye",   "right_eye",   "left_ear",   "right_ear",   "left_shoulder",
    "right_shoulder", "left_elbow", "right_elbow", "left_wrist", "right_wrist", "left_hip",
    "right_hip",      "left_knee",  "right_knee",  "left_ankle", "right_ankle"};
constexpr std::array<std::string_view, 6> names_of_feet = {"left_big_toe",    "left_small_toe",
                                                           "left_heel",       "right_big_toe",
                                                           "right_small_toe", "right_heel"};

bool recognises(Value document) {
  const auto annotations = document.find("annotations"), images = document.find("images");
  if (!annotations || !annotations->is_list() || !images || !images->is_list()) return false;
  const auto first = annotations->front();
  return document.has("categories") || (first && first->has("keypoints"));
}

std::optional<Value> list_at(Value object, std::string_view key) {
  const auto list = object.find(key);
  if (!list || !list->is_list()) return std::nullopt;
  return list;
}

/// Numbers and texts that stand for the same thing are the same.
std::string id_of(Value object, std::string_view key, const Spot& where) {
  const auto id = object.find(key);
  if (!id) refuse(where, Fault::bad_value, "has no " + std::string(key));
  if (const auto text = id->text()) return std::string(*text);
  if (const auto number = id->whole()) return std::to_string(*number);
  refuse(where.at(key), Fault::bad_value, "should be a whole number or a text, is " + kind_of(*id));
}

// ------------------------------------------------------------------------------ categories

/// The names that the points of people have, and which categories are people.
struct Categories {
  std::vector<std::string> names;
  std::set<std::string> ids;
  bool none_has_names = true;
};

std::vector<std::string> names_of(Value category) {
  std::vector<std::string> names;
  const auto list = list_at(category, "keypoints");
  if (!list) return names;
  for (const Value name : list->list()) names.emplace_back(name.text().value_or(""));
  if (names.size() > Names::most) names.clear();
  return names;
}

/// The first category whose points' names are a human body's, and those like it; without any the
/// first that has names at all, which assembly then refuses by them.
Categories categories_of(Value document, const Spot& where) {
  Categories people, others;
  const Spot list = where.at("categories");
  const auto all = list_at(document, "categories");
  if (!all) return people;
  std::size_t i = 0;
  for (const Value category : all->list()) {
    const Spot here = list.at(i++);
    auto names = names_of(category);
    if (names.empty()) continue;
    Categories& kind = names_a_body(names) ? people : others;
    if (!kind.names.empty() && kind.names != names) continue;
    kind.names = std::move(names);
    kind.ids.insert(id_of(category, "id", here));
  }
  Categories& chosen = people.ids.empty() ? others : people;
  chosen.none_has_names = people.ids.empty() && others.ids.empty();
  return chosen;
}

bool is_chosen(const Categories& categories, Value annotation, const Spot& where) {
  if (categories.none_has_names) return true;
  if (!annotation.has("category_id")) return true;
  return categories.ids.contains(id_of(annotation, "category_id", where));
}

// ------------------------------------------------------------------------------ people

std::vector<RawPoint> points_at(Value annotation, std::string_view key, Parts parts,
                                const Spot& where) {
  const auto points = annotation.find(key);
  if (!points || points->is_empty()) return {};
  return read_points(*points, parts, where.at(key));
}

RawPerson person_of(Value annotation, bool with_feet, const Spot& where) {
  RawPerson person;
  person.body = points_at(annotation, "keypoints", Parts::xyc, where);
  if (with_feet) {
    person.body.resize(names_17.size());
    const auto feet = points_at(annotation, "foot_kpts", Parts::xyc, where);
    if (feet.size() == names_of_feet.size()) {
      person.body.insert(person.body.end(), feet.begin(), feet.end());
    }
  }
  person.left_hand = points_at(annotation, "lefthand_kpts", Parts::xyc, where);
  person.right_hand = points_at(annotation, "righthand_kpts", Parts::xyc, where);
  person.space = points_at(annotation, "keypoints_3d", Parts::xyzc, where);
  if (annotation.has("track_id")) person.track = track_of(annotation);
  return person;
}

/// True where the numbers beside the points are all 0, 1 or 2.
bool are_labels(const RawFilm& film) {
  for (const auto& frame : film.frames) {
    for (const auto& person : frame.people) {
      for (const auto& point : person.body) {
        const double mark = point.score;
        if (mark == mark && mark != 0 && mark != 1 && mark != 2) return false;
      }
    }
  }
  return true;
}

// ------------------------------------------------------------------------------ pictures

/// Makes a frame of each image, and gives the frame of each id.
std::map<std::string, std::size_t> add_frames(Value document, const Spot& where, RawFilm& film) {
  std::map<std::string, std::size_t> frame_of;
  std::vector<std::string> names;
  std::vector<ImageSize> sizes;
  const Spot list = where.at("images");
  for (const Value image : document.find("images")->list()) {
    const Spot here = list.at(names.size());
    frame_of[id_of(image, "id", here)] = names.size();
    const auto name = image.find("file_name");
    names.emplace_back(name ? name->text().value_or("") : "");
    const auto width = image.find("width"), height = image.find("height");
    sizes.push_back(
        {width ? width->number().value_or(0) : 0, height ? height->number().value_or(0) : 0});
  }
  const auto numbers = frame_numbers(names);
  for (const std::size_t number : numbers) film.add({number, std::nullopt, {}}, list);
  const bool alike = std::all_of(sizes.begin(), sizes.end(), [&](const ImageSize& size) {
    return size.width_px > 0 && size.height_px > 0 && size.width_px == sizes.front().width_px &&
           size.height_px == sizes.front().height_px;
  });
  if (alike && !sizes.empty()) film.image = sizes.front();
  return frame_of;
}

bool any_feet(Value document) {
  for (const Value annotation : document.find("annotations")->list()) {
    if (annotation.has("foot_kpts")) return true;
  }
  return false;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "marks on pictures";
  film.layouts = {"coco-17", "halpe-26", "halpe-136", "coco-wholebody-133", "mpii-16"};
  film.score = Score::label;
  film.space = {SpaceSource::several_cameras, SpaceAxes::world_z_up, 1};
  const auto frame_of = add_frames(document, where, film);
  const Categories categories = categories_of(document, where);
  film.names = categories.names;
  const bool with_feet = any_feet(document);
  if (with_feet) {
    film.names.assign(names_17.begin(), names_17.end());
    film.names.insert(film.names.end(), names_of_feet.begin(), names_of_feet.end());
  }
  const Spot list = where.at("annotations");
  std::size_t i = 0;
  for (const Value annotation : document.find("annotations")->list()) {
    const Spot here = list.at(i++);
    if (!annotation.has("keypoints") || !is_chosen(categories, annotation, here)) continue;
    const auto frame = frame_of.find(id_of(annotation, "image_id", here));
    if (frame == frame_of.end()) {
      refuse(here.at("image_id"), Fault::bad_value, "is of none of the images in the file");
    }
    film.add(person_of(annotation, with_feet, here.in_frame(frame->second)), frame->second, here);
  }
  if (!are_labels(film)) film.score = Score::confidence;
  return film;
}

}  // namespace

const Form annotated_pictures = {
    "annotated-pictures",
    "a data set's file: {images, annotations: [{image_id, keypoints: [x, y, v, …]}], categories}",
    recognises, read};

}  // namespace rangecheck::intake
