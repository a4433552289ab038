// SPDX-License-Identifier: MIT
// A list of instances a frame, each with its points and, apart, their scores:
//   {"meta_info": {"keypoint_id2name": {"0": "nose", …}, …},
//    "instance_info": [{"frame_id": 1, "instances": [
//      {"keypoints": [[x, y], …], "keypoint_scores": [0.93, …], "bbox": [[…]], "bbox_score": …}]}]}
// Without meta_info the frames are a list and count from 0; of a single image the instances stand
// alone. Scores go a little over 1. A point that was not seen has a low score and a place all the
// same.
//
// Points with three numbers are the lifter's: up is z, and the program that writes them exchanges
// and turns over axes so that x is counted to the left (body3d_pose_lifter_demo.py of MMPose 1.x:
// [0, 2, 1], then −x and −z), which mirrors the body. It also sets each frame's lowest point to
// height 0, so that nobody goes up or down as a whole.
#include <array>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 1> people_keys = {"instances"};

bool is_bare_point(Value value) { return value.is_list() && is_point(value); }

bool is_person(Value entry) {
  const auto points = entry.find("keypoints");
  if (!points || !points->is_list() || !entry.has("keypoint_scores")) return false;
  const auto first = first_filled(*points);
  return first && is_bare_point(*first);
}

bool is_frame(Value entry) { return holds_people(entry, is_person, people_keys); }

constexpr FrameShape shape = {is_frame, is_person};

/// The part of a document that holds the frames, and the key it is under ("": the document).
std::string_view place_of_frames(Value document) {
  return document.has("instance_info") ? "instance_info" : "";
}
Value frames_of(Value document) {
  const auto key = place_of_frames(document);
  return key.empty() ? document : *document.find(key);
}

bool recognises(Value document) { return holds_frames(frames_of(document), shape); }

/// The names in the file by index; none where there are none.
std::vector<std::string> names_of(Value document, const Spot& where) {
  std::vector<std::string> names;
  const auto meta = document.find("meta_info");
  const auto by_id = meta ? meta->find("keypoint_id2name") : std::nullopt;
  if (!by_id) return names;
  for (std::size_t i = 0; i < by_id->size(); ++i) {
    const auto name = by_id->find(std::to_string(i));
    const auto text = name ? name->text() : std::nullopt;
    if (!text) {
      const Spot facts = where.at("meta_info");
      refuse(facts.at("keypoint_id2name"), Fault::bad_value,
             "doesn't name point " + std::to_string(i));
    }
    names.emplace_back(*text);
  }
  return names;
}

void read_scores(Value person, const Spot& where, std::vector<RawPoint>& points) {
  const auto scores = person.find("keypoint_scores");
  if (!scores || scores->is_empty()) return;
  const Spot here = where.at("keypoint_scores");
  if (scores->size() != points.size()) {
    refuse(here, Fault::bad_value,
           "has " + std::to_string(scores->size()) + " scores for " +
               std::to_string(points.size()) + " points");
  }
  std::size_t i = 0;
  for (const Value score : scores->list()) {
    points[i].score = number_or_null(score, here.at(i)).value_or(RawPoint::none);
    ++i;
  }
}

RawPerson read_person(Value person, const Spot& where) {
  RawPerson one;
  const auto keypoints = person.find("keypoints");
  if (!keypoints || keypoints->is_empty()) return one;
  auto points = read_list(*keypoints, Parts::xyz, where.at("keypoints"));
  read_scores(person, where, points);
  if (keypoints->front()->size() < 3) {
    one.body = std::move(points);
    return one;
  }
  for (auto& point : points) point.x = -point.x;
  one.space = std::move(points);
  return one;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "instances with points and scores";
  film.names = names_of(document, where);
  film.space = {SpaceSource::one_camera, SpaceAxes::world_z_up, 0};
  const auto frame = [](Value entry, const Spot& here, RawFrame& into) {
    read_people(entry, here, is_person, people_keys, read_person, into);
  };
  const auto key = place_of_frames(document);
  const Spot here = key.empty() ? where : where.at(key);
  read_frames(frames_of(document), here, shape, frame, film);
  film.layouts = {"coco-17", "halpe-26", "coco-wholebody-133"};
  bool in_space = false;
  for (const auto& each : film.frames) {
    for (const auto& person : each.people) in_space = in_space || !person.space.empty();
  }
  if (in_space) {
    film.layouts = {"h36m-17"};
    film.notes.push_back({"reading.lowest-at-0"});
  }
  return film;
}

}  // namespace

const Form instances = {
    "instances",
    "instances with points and scores: {meta_info, instance_info: [{frame_id, instances: "
    "[{keypoints: [[x, y], …], keypoint_scores}]}]}",
    recognises, read};

}  // namespace rangecheck::intake
