// SPDX-License-Identifier: MIT
// {"data_by_frame": {"0": {"timestamps": {"mean": …}, "tracked_points": {"left_hip": {"x", "y",
// "z"}, …}}, …}}: points in space from several ordinary cameras. Millimetres, z up, null or NaN for
// missing (github.com/freemocap/freemocap freemocap/data_layer/data_saver).
#include <algorithm>
#include <vector>

#include "intake/dialects/forms.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view frames_key = "data_by_frame", points_key = "tracked_points";

bool recognises(Value document) {
  const auto frames = document.find(frames_key);
  if (!frames || !frames->is_object()) return false;
  for (const auto [key, frame] : frames->members()) return frame.has(points_key);
  return false;
}

/// A hand's point as the body's own would be called: right_hand_thumb_tip, right_thumb_tip. The
/// hand's wrist is the body's again, from another look, and is left out.
std::optional<std::string> plain_name(std::string_view name) {
  constexpr std::string_view hand = "_hand_";
  const auto at = name.find(hand);
  if (at == std::string_view::npos) return std::string(name);
  const auto rest = name.substr(at + hand.size());
  if (rest == "wrist") return std::nullopt;
  return std::string(name.substr(0, at + 1)) + std::string(rest);
}

RawPerson read_person(Value points, const Spot& where, Names& names) {
  RawPerson person;
  for (const auto [key, value] : points.members()) {
    const auto name = plain_name(key);
    if (!name) continue;
    const Spot here = where.at(key);
    const std::size_t index = names.index_of(*name, here);
    if (person.space.size() <= index) person.space.resize(index + 1);
    person.space[index] = read_point(value, Parts::xyz, here);
  }
  return person;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "points in space by name";
  film.space = {SpaceSource::several_cameras, SpaceAxes::world_z_up, 0.001};
  std::vector<Member> members;
  for (const auto member : document.find(frames_key)->members()) members.push_back(member);
  std::stable_sort(members.begin(), members.end(),
                   [](const Member& a, const Member& b) { return natural_less(a.key, b.key); });
  Names names;
  std::vector<std::string> keys;
  const Spot list = where.at(frames_key);
  for (const auto& [key, value] : members) {
    const Spot here = list.at(key).in_frame(film.frames.size());
    RawFrame frame;
    const auto stamps = value.find("timestamps");
    const auto mean = stamps ? stamps->find("mean") : std::nullopt;  // of the cameras, seconds
    if (const auto time_s = mean ? mean->number() : std::nullopt) {
      frame.time = Duration::seconds(*time_s);
    }
    if (const auto points = value.find(points_key)) {
      frame.add(read_person(*points, here.at(points_key), names), here);
    }
    film.add(std::move(frame), here);
    keys.emplace_back(key);
  }
  const auto numbers = frame_numbers(keys);
  for (std::size_t i = 0; i < numbers.size(); ++i) film.frames[i].number = numbers[i];
  film.names = names.all();
  return film;
}

}  // namespace

const Form points_by_frame = {"points-by-frame",
                              "{\"data_by_frame\": {\"0\": {\"tracked_points\": {\"left_hip\": "
                              "{\"x\", \"y\", \"z\"}, …}}}}: named "
                              "points in space from several cameras",
                              recognises, read};

}  // namespace rangecheck::intake
