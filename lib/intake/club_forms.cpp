// SPDX-License-Identifier: MIT
// Clubs and balls as their detectors write them:
//
//   {"frames": [{"frame": 0, "objects": [{"grip_end": [612, 900, 0.9], "toe": [588, 1490, 0.8]},
//                                        {"ball": {"x": 640, "y": 1540, "score": 0.7}}]}, …]}
//
// objects of named points, in all the containers that people come in; and data sets' files
// {images, categories: [{id, keypoints: ["grip_end", …]}], annotations}, of which all categories
// are read that name a point of club or ball.
#include "intake/club_forms.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "intake/club_points.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

// ------------------------------------------------------------------------------ named points

constexpr std::array<std::string_view, 5> object_keys = {"objects", "detections", "clubs", "people",
                                                         "predictions"};

Value owner_of(Value object) {
  const auto points = object.find("points");
  return points && points->is_object() ? *points : object;
}

bool has_club(Value object) {
  if (!object.is_object() || object.has("format")) return false;
  for (const auto [name, value] : owner_of(object).members()) {
    if (club_point_named(name) && is_point(value)) return true;
  }
  return false;
}

bool is_frame(Value entry) { return holds_people(entry, has_club, object_keys); }

constexpr FrameShape shape = {is_frame, has_club};

/// Frames with nothing in any of them.
bool is_bare(Value document) {
  const auto frames = document.find("frames");
  if (!frames || !frames->is_list() || document.has("format")) return false;
  for (const Value frame : frames->list()) {
    const auto key = first_key(frame, object_keys);
    if (!key || !frame.find(*key)->is_empty()) return false;
  }
  return true;
}

bool recognises_objects(Value document) {
  return !document.has("format") && (is_bare(document) || holds_frames(document, shape));
}

RawFilm read_objects(Value document, const Spot& where) {
  RawFilm film;
  film.form = "named points of clubs and balls";
  if (is_bare(document)) {
    film.names.emplace_back(key_of(Joint::ball));
    const std::size_t count = document.find("frames")->size();
    check_frame_count(count, where.at("frames"));
    film.frames.resize(count);
    return film;
  }
  Names names;
  const auto read_one = [&](Value object, const Spot& here) {
    RawPerson one;
    for (const auto [name, value] : owner_of(object).members()) {
      if (!club_point_named(name) || value.kind() == Kind::null) continue;
      const std::size_t index = names.index_of(name, here);
      if (one.body.size() <= index) one.body.resize(index + 1);
      one.body[index] = read_point(value, Parts::xyc, here.at(name));
    }
    return one;
  };
  read_frames(
      document, where, shape,
      [&](Value entry, const Spot& here, RawFrame& frame) {
        read_people(entry, here, has_club, object_keys, read_one, frame);
      },
      film);
  film.names = names.all();
  return film;
}

constexpr Form club_objects = {"club-objects", "objects of named points of club and ball",
                               recognises_objects, read_objects};

// ------------------------------------------------------------------------------ data sets

std::vector<std::string> names_of(Value category) {
  std::vector<std::string> names;
  const auto list = category.find("keypoints");
  if (!list) return names;
  for (const Value name : list->list()) names.emplace_back(name.text().value_or(""));
  const bool any = std::any_of(names.begin(), names.end(),
                               [](const std::string& name) { return club_point_named(name); });
  if (!any) names.clear();
  return names;
}

bool recognises_annotations(Value document) {
  const auto images = document.find("images"), annotations = document.find("annotations"),
             categories = document.find("categories");
  if (!images || !annotations || !categories) return false;
  for (const Value category : categories->list()) {
    if (!names_of(category).empty()) return true;
  }
  return false;
}

/// Ids may be numbers or texts.
std::string id_of(Value object, std::string_view key, const Spot& where) {
  const auto id = object.find(key);
  if (id && id->text()) return std::string(*id->text());
  if (id && id->whole()) return std::to_string(*id->whole());
  refuse(where, Fault::bad_value, "has no " + std::string(key));
}

std::map<std::string, std::size_t> add_images(Value images, const Spot& where, RawFilm& film) {
  std::map<std::string, std::size_t> frame_of;
  std::vector<std::string> names;
  for (const Value image : images.list()) {
    frame_of[id_of(image, "id", where.at(names.size()))] = names.size();
    const auto name = image.find("file_name");
    names.emplace_back(name ? name->text().value_or("") : "");
    const auto width = image.find("width"), height = image.find("height");
    const ImageSize size{width ? width->number().value_or(0) : 0,
                         height ? height->number().value_or(0) : 0};
    if (size.width_px > 0 && size.height_px > 0) film.image = size;
  }
  for (const std::size_t number : frame_numbers(names)) {
    film.add({number, std::nullopt, {}}, where);
  }
  return frame_of;
}

RawFilm read_annotations(Value document, const Spot& where) {
  RawFilm film;
  film.form = "marks on pictures";
  const auto frame_of = add_images(*document.find("images"), where.at("images"), film);
  Names names;
  std::map<std::string, std::vector<std::string>> names_by_category;
  for (const Value category : document.find("categories")->list()) {
    const auto known = names_of(category);
    if (known.empty()) continue;
    names_by_category[id_of(category, "id", where.at("categories"))] = known;
  }
  const Spot list = where.at("annotations");
  std::size_t i = 0;
  bool labels = true;
  for (const Value annotation : document.find("annotations")->list()) {
    const Spot here = list.at(i++);
    const auto category = names_by_category.find(id_of(annotation, "category_id", here));
    const auto points = annotation.find("keypoints");
    if (category == names_by_category.end() || !points || points->is_empty()) continue;
    const auto frame = frame_of.find(id_of(annotation, "image_id", here));
    if (frame == frame_of.end()) {
      refuse(here.at("image_id"), Fault::bad_value, "is of none of the images in the file");
    }
    const auto read = read_flat(*points, Parts::xyc, here.at("keypoints"));
    RawPerson one;
    for (std::size_t p = 0; p < std::min(read.size(), category->second.size()); ++p) {
      const std::size_t index = names.index_of(category->second[p], here);
      if (one.body.size() <= index) one.body.resize(index + 1);
      one.body[index] = read[p];
      labels = labels && (read[p].score == 0 || read[p].score == 1 || read[p].score == 2);
    }
    film.add(std::move(one), frame->second, here);
  }
  film.names = names.all();
  film.score = labels ? Score::label : Score::confidence;
  return film;
}

constexpr Form club_annotations = {"club-annotations",
                                   "a data set's file whose categories name points of club or ball",
                                   recognises_annotations, read_annotations};

constexpr const Form* forms[] = {&club_annotations, &club_objects};

}  // namespace

std::span<const Form* const> club_forms() { return forms; }

}  // namespace rangecheck::intake
