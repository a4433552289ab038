// SPDX-License-Identifier: MIT
// Bare rows of 58 numbers, one a person: frame, kind of object, middle x, middle y, width, height
// and confidence of the box, then 17 points as x, y, confidence. The rows of a film are one list,
// told apart by their first number, or one list a frame with 0 there throughout.
#include <algorithm>
#include <map>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::size_t before_points = 7;
constexpr std::size_t row_size = before_points + 3 * 17;

bool is_row(Value entry) {
  if (!entry.is_list() || entry.size() != row_size) return false;
  return entry.front()->kind() == Kind::number;
}

bool is_frame(Value entry) { return holds_people(entry, is_row, {}); }

constexpr FrameShape shape = {is_frame, is_row};

bool recognises(Value document) { return document.is_list() && holds_frames(document, shape); }

RawPerson read_row(Value row, const Spot& where) {
  if (!is_row(row)) {
    refuse(where, Fault::bad_value, "should be a list of 58 numbers, is " + kind_of(row));
  }
  RawPerson person;
  std::size_t i = 0;
  for (const Value number : row.list()) {
    const double value = number_or_null(number, where.at(i)).value_or(RawPoint::none);
    if (i >= before_points) {
      const std::size_t part = (i - before_points) % 3;
      if (part == 0) person.body.emplace_back();
      RawPoint& point = person.body.back();
      (part == 0 ? point.x : part == 1 ? point.y : point.score) = value;
    }
    ++i;
  }
  return person;
}

/// The first numbers of all rows; empty when they are all the same, or not all are frames.
std::vector<std::size_t> numbers_of(Value rows) {
  std::vector<std::size_t> numbers;
  for (const Value row : rows.list()) {
    const auto number = is_row(row) ? row.front()->whole() : std::nullopt;
    if (!number || *number < 0) return {};
    numbers.push_back(static_cast<std::size_t>(*number));
  }
  const bool same = std::all_of(numbers.begin(), numbers.end(),
                                [&](std::size_t number) { return number == numbers.front(); });
  return same ? std::vector<std::size_t>{} : numbers;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "rows of 58 numbers a person";
  film.layouts = {"coco-17"};
  const auto numbers = numbers_of(document);
  if (numbers.empty()) {
    const auto frame = [](Value entry, const Spot& here, RawFrame& into) {
      read_people(entry, here, is_row, {}, read_row, into);
    };
    read_frames(document, where, shape, frame, film);
    return film;
  }
  std::map<std::size_t, RawFrame> frames;
  std::size_t i = 0;
  for (const Value row : document.list()) {
    RawFrame& frame = frames[numbers[i]];
    frame.number = numbers[i];
    const Spot here = where.at(i);
    frame.add(read_row(row, here), here);
    ++i;
  }
  for (auto& [number, frame] : frames) film.add(std::move(frame), where);
  return film;
}

}  // namespace

const Form detection_rows = {
    "detection-rows",
    "rows of 58 numbers a person: frame, kind, box and confidence (5), then 17 × x, y, confidence",
    recognises, read};

}  // namespace rangecheck::intake
