// SPDX-License-Identifier: MIT
// {"joint_names": [32 names], "frames": [{"timestamp_usec", "frame_id", "bodies": [{"body_id",
// "joint_positions": [[x, y, z] * 32]}]}]}: what a depth camera's body tracker found in a
// recording. Millimetres, x right, y down, z away from the camera; every point is always there,
// guessed or not, without a confidence
// (github.com/microsoft/Azure-Kinect-Samples body-tracking-samples/offline_processor).
#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view positions_key = "joint_positions";

bool recognises(Value document) {
  const auto names = document.find("joint_names");
  const auto frames = document.find("frames");
  return names && names->is_list() && frames && frames->is_list();
}

RawFrame read_frame(Value value, const Spot& where, std::size_t next) {
  RawFrame frame{next, std::nullopt, {}};
  const auto number = value.find("frame_id");
  if (const auto whole = number ? number->whole() : std::nullopt; whole && *whole >= 0) {
    frame.number = static_cast<std::size_t>(*whole);
  }
  if (const auto time = value.find("timestamp_usec")) {
    const auto time_us = number_or_null(*time, where.at("timestamp_usec"));
    if (time_us) frame.time = Duration::seconds(*time_us / 1e6);
  }
  const auto bodies = value.find("bodies");
  if (!bodies) return frame;
  const Spot list = where.at("bodies");
  std::size_t i = 0;
  for (const Value body : bodies->list()) {
    const Spot here = list.at(i++);
    const auto positions = body.find(positions_key);
    if (!positions) refuse(here, Fault::bad_value, "has no joint_positions");
    RawPerson person;
    person.space = read_list(*positions, Parts::xyz, here.at(positions_key));
    const auto id = body.find("body_id");
    if (const auto whole = id ? id->whole() : std::nullopt) person.track = static_cast<int>(*whole);
    frame.add(std::move(person), here);
  }
  return frame;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "bodies with points in space";
  film.space = {SpaceSource::depth_camera, SpaceAxes::camera, 0.001};
  film.layouts = {"kinect-32"};
  const Value names = *document.find("joint_names");
  // Other lists than the tracker's own are taken by their names.
  if (names.size() != 32) {
    std::size_t i = 0;
    for (const Value name : names.list()) {
      const auto text = name.text();
      if (!text) refuse(where.at("joint_names").at(i), Fault::bad_value, "should be a name");
      film.names.emplace_back(*text);
      ++i;
    }
  }
  const Spot list = where.at("frames");
  for (const Value value : document.find("frames")->list()) {
    const std::size_t index = film.frames.size();
    const std::size_t next = index == 0 ? 0 : film.frames.back().number + 1;
    const Spot here = list.at(index).in_frame(index);
    film.add(read_frame(value, here, next), here);
  }
  return film;
}

}  // namespace

const Form depth_camera_bodies = {
    "depth-camera-bodies",
    "{\"joint_names\": […], \"frames\": [{\"bodies\": [{\"joint_positions\": [[x, y, z], …]}]}]}: "
    "32 points in space from a depth camera",
    recognises, read};

}  // namespace rangecheck::intake
