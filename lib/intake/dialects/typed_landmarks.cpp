// SPDX-License-Identifier: MIT
// The 33 points as the telephone libraries give them, in pixels, each with its type (its index, or
// its name, perhaps after that of the enumeration) and how likely it is inside the picture:
//   [{"type": 11, "position": {"x": …, "y": …, "z": …}, "inFrameLikelihood": 0.99}, …]
//   [{"type": "leftShoulder", "x": …, "y": …, "z": …, "likelihood": 0.99}, …]
// A person is such a list, bare or under `landmarks` or the like; a frame is a person or a list of
// people.
#include <array>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 5> list_keys = {"landmarks", "poseLandmarks",
                                                       "allPoseLandmarks", "pose", "points"};
constexpr std::array<std::string_view, 3> people_keys = {"poses", "people", "persons"};
constexpr std::array<std::string_view, 2> type_keys = {"type", "landmarkType"};
constexpr std::size_t count = 33;

bool is_list(Value value) {
  if (!value.is_list()) return false;
  const auto first = first_filled(value);
  if (!first || !first->is_object() || !is_point(*first)) return false;
  return first_key(*first, type_keys) &&
         (first->has("inFrameLikelihood") || first->has("likelihood"));
}

/// The list of a person, and the key it is under ("" for a bare one).
std::optional<std::string_view> place_of_list(Value person) {
  if (is_list(person)) return "";
  for (const auto key : list_keys) {
    const auto list = person.find(key);
    if (list && is_list(*list)) return key;
  }
  return std::nullopt;
}

bool is_person(Value entry) { return place_of_list(entry).has_value(); }

bool is_frame(Value entry) { return holds_people(entry, is_person, people_keys); }

constexpr FrameShape shape = {is_frame, is_person};

bool recognises(Value document) { return holds_frames(document, shape); }

/// "PoseLandmarkType.leftShoulder" → "leftShoulder".
std::string_view bare_name(std::string_view name) { return name.substr(name.rfind('.') + 1); }

/// Puts each point where its type says. With names, `names` grows.
void put(Value point, const Spot& where, Names& names, std::vector<RawPoint>& body) {
  const auto key = first_key(point, type_keys);
  if (!key) refuse(where, Fault::bad_value, "has no type to tell which point it is");
  const Value type = *point.find(*key);
  std::size_t index = 0;
  if (const auto number = type.whole()) {
    if (*number < 0 || *number >= static_cast<long long>(count)) {
      refuse(where.at(*key), Fault::bad_value, "should be from 0 to 32");
    }
    index = static_cast<std::size_t>(*number);
    if (body.size() < count) body.resize(count);
  } else if (const auto name = type.text()) {
    index = names.index_of(bare_name(*name), where.at(*key));
    if (body.size() <= index) body.resize(index + 1);
  } else {
    refuse(where.at(*key), Fault::bad_value, "should be a number or a name, is " + kind_of(type));
  }
  body[index] = read_point(point, Parts::xyz, where);
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "points with their types";
  film.estimator = Estimator::points_33;
  film.layouts = {"points-33"};
  film.score = Score::visibility;
  film.fractions = false;
  Names names;
  const auto person = [&](Value value, const Spot& here) {
    RawPerson one;
    const auto key = place_of_list(value);
    if (!key) return one;
    const Value list = key->empty() ? value : *value.find(*key);
    const Spot spot = key->empty() ? here : here.at(*key);
    std::size_t i = 0;
    for (const Value point : list.list()) {
      const Spot at = spot.at(i++);
      if (point.kind() != Kind::null) put(point, at, names, one.body);
    }
    return one;
  };
  const auto frame = [&](Value entry, const Spot& here, RawFrame& into) {
    read_people(entry, here, is_person, people_keys, person, into);
  };
  read_frames(document, where, shape, frame, film);
  film.names = names.all();
  return film;
}

}  // namespace

const Form typed_landmarks = {
    "typed-landmarks",
    "33 points with their types: [{type: 11 or \"leftShoulder\", position: {x, y, z}, "
    "inFrameLikelihood}] a frame, in pixels",
    recognises, read};

}  // namespace rangecheck::intake
