// SPDX-License-Identifier: MIT
// {"version": 0.7, "univTime": ms, "fpsType": "hd_29_97", "bodies": [{"id": 0, "joints19": [x, y,
// z, c, …]}]}: one picture of a studio with many cameras. Centimetres, y down, the floor at 0; a
// point that no two cameras saw has c = -1
// (github.com/CMU-Perceptual-Computing-Lab/panoptic-toolbox README.md).
#include <algorithm>

#include "base/text.hpp"
#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view joints_key = "joints19";

bool is_picture(Value value) {
  const auto bodies = value.find("bodies");
  if (!bodies || !bodies->is_list()) return false;
  const auto first = bodies->front();
  return first ? first->has(joints_key) : value.has("univTime");
}

bool recognises(Value document) {
  return is_picture(document) ||
         (document.is_list() && document.front() && is_picture(*document.front()));
}

/// 29.97 of "hd_29_97", 25 of "vga_25".
std::optional<double> rate_of(Value picture) {
  const auto type = picture.find("fpsType");
  const auto text = type ? type->text() : std::nullopt;
  if (!text || text->find('_') == std::string_view::npos) return std::nullopt;
  std::string rate(text->substr(text->find('_') + 1));
  std::replace(rate.begin(), rate.end(), '_', '.');
  const auto hertz = parse_number(rate);
  return hertz && *hertz > 0 ? hertz : std::nullopt;
}

RawFrame read_picture(Value picture, const Spot& where, std::size_t number) {
  RawFrame frame{number, std::nullopt, {}};
  if (const auto time = picture.find("univTime")) {
    const auto time_ms = number_or_null(*time, where.at("univTime"));
    if (time_ms) frame.time = Duration::seconds(*time_ms / 1000);
  }
  const auto bodies = picture.find("bodies");
  if (!bodies) refuse(where, Fault::bad_value, "has no bodies");
  const Spot list = where.at("bodies");
  std::size_t i = 0;
  for (const Value body : bodies->list()) {
    const Spot here = list.at(i++);
    const auto joints = body.find(joints_key);
    if (!joints) refuse(here, Fault::bad_value, "has no joints19");
    RawPerson person;
    person.space = read_flat(*joints, Parts::xyzc, here.at(joints_key));
    person.track = track_of(body);
    frame.add(std::move(person), here);
  }
  return frame;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "bodies with points in space";
  film.layouts = {"panoptic-19"};
  film.space = {SpaceSource::several_cameras, SpaceAxes::world_y_down, 0.01};
  const bool many = document.is_list();
  film.frame_rate_hz = rate_of(many ? *document.front() : document);
  if (!many) film.add(read_picture(document, where, 0), where);
  for (const Value picture : document.list()) {
    const std::size_t number = film.frames.size();
    const Spot here = where.at(number).in_frame(number);
    film.add(read_picture(picture, here, number), here);
  }
  return film;
}

}  // namespace

const Form joints19_bodies = {
    "joints19-bodies",
    "{\"univTime\": …, \"bodies\": [{\"joints19\": [x, y, z, c, …]}]}: 19 points in space from "
    "several cameras, one file a frame",
    recognises, read};

}  // namespace rangecheck::intake
