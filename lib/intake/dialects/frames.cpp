// SPDX-License-Identifier: MIT
#include "intake/dialects/frames.hpp"

#include <algorithm>

#include "intake/dialects/header.hpp"
#include "intake/dialects/lone_people.hpp"
#include "intake/natural_order.hpp"

namespace rangecheck::intake {
namespace {

/// A frame's object without people: numbers and texts beside nothing.
bool is_nobody(Value entry) {
  if (entry.is_empty()) return true;
  if (!entry.is_object()) return false;
  for (const auto [key, value] : entry.members()) {
    if (!value.is_empty() && (value.is_list() || value.is_object())) return false;
  }
  return true;
}

bool is_somebody(Value entry) {
  return (entry.is_list() || entry.is_object()) && !is_nobody(entry);
}

std::optional<Value> first_with_somebody(Value list) {
  for (const Value entry : list.list()) {
    if (!is_nobody(entry)) return entry;
  }
  return std::nullopt;
}

/// How a document keeps its frames: in a list (of persons: it may be one frame), or by name.
enum class Kept { nowhere, alone, frames, persons, by_name };
struct Keeping {
  Kept kept = Kept::nowhere;
  std::string_view key = {};  ///< of the list; empty when it is the document itself
};

Keeping keeping_of_list(Value document, const FrameShape& shape) {
  if (shape.is_person(document)) return {Kept::alone};
  const auto first = first_with_somebody(document);
  if (first && shape.is_frame(*first)) {
    return {shape.is_person(*first) ? Kept::persons : Kept::frames};
  }
  return {shape.is_frame(document) ? Kept::alone : Kept::nowhere};
}

Keeping keeping_of_object(Value document, const FrameShape& shape) {
  const auto frames = document.find("frames");
  const auto frame = frames ? first_with_somebody(*frames) : std::nullopt;
  if (frame && shape.is_frame(*frame)) return {Kept::frames, "frames"};
  if (shape.is_frame(document)) return {Kept::alone};
  std::size_t pictures = 0;
  Keeping list;
  for (const auto [key, value] : document.members()) {
    if (!is_somebody(value)) continue;
    if (shape.is_frame(value)) ++pictures;
    if (!value.is_list()) continue;
    const Keeping inner = keeping_of_list(value, shape);
    if (inner.kept == Kept::frames) return {Kept::frames, key};
    if (inner.kept == Kept::persons) list = {Kept::persons, key};
  }
  if (pictures == 1 && list.kept == Kept::persons) return list;
  return {pictures > 0 ? Kept::by_name : Kept::nowhere};
}

Keeping keeping_of(Value document, const FrameShape& shape) {
  if (document.is_empty()) return {};
  if (document.is_list()) return keeping_of_list(document, shape);
  return document.is_object() ? keeping_of_object(document, shape) : Keeping{};
}

/// Reads the frames one after another.
class Reading {
 public:
  Reading(const FrameShape& shape, const ReadFrame& read, RawFilm& film)
      : shape_(shape), read_(read), film_(film) {}

  void add(Value entry, const Spot& where) {
    RawFrame frame;
    frame.number = film_.frames.size();
    stamps_.add(entry);
    if (!is_nobody(entry)) {
      read_(entry, where.in_frame(frame.number), frame);
      if (!shape_.is_person(entry)) read_header(entry, film_);
    }
    film_.add(std::move(frame), where);
  }

  void add_list(Value list, const Spot& where) {
    std::size_t i = 0;
    for (const Value entry : list.list()) add(entry, where.at(i++));
  }

  /// {"0.jpg": frame, …}: in natural order of the names, numbered by them.
  void add_named(Value object, const Spot& where) {
    std::vector<Member> members;
    for (const auto member : object.members()) {
      if (member.value.is_empty() || is_somebody(member.value)) members.push_back(member);
    }
    std::stable_sort(members.begin(), members.end(),
                     [](const Member& a, const Member& b) { return natural_less(a.key, b.key); });
    std::vector<std::string> names;
    for (const auto& [key, entry] : members) {
      names.emplace_back(key);
      add(entry, where.at(key));
    }
    const auto numbers = frame_numbers(names);
    for (std::size_t i = 0; i < numbers.size(); ++i) film_.frames[i].number = numbers[i];
  }

  void finish() { stamps_.stamp(film_); }

 private:
  const FrameShape& shape_;
  const ReadFrame& read_;
  RawFilm& film_;
  Stamps stamps_;
};

}  // namespace

bool holds_frames(Value document, const FrameShape& shape) {
  return keeping_of(document, shape).kept != Kept::nowhere;
}

void read_frames(Value document, const Spot& where, const FrameShape& shape, const ReadFrame& read,
                 RawFilm& film) {
  const Keeping keeping = keeping_of(document, shape);
  Reading reading(shape, read, film);
  switch (keeping.kept) {
    case Kept::nowhere:
      break;
    case Kept::alone:
      reading.add(document, where);
      break;
    case Kept::frames:
    case Kept::persons:
      if (keeping.key.empty()) {
        reading.add_list(document, where);
      } else {
        reading.add_list(*document.find(keeping.key), where.at(keeping.key));
      }
      break;
    case Kept::by_name:
      reading.add_named(document, where);
      break;
  }
  reading.finish();
  if (!shape.is_person(document)) read_header(document, film);
  film.bare_list = keeping.kept == Kept::persons;
  if (film.bare_list) settle_lone_people(film);
}

bool holds_people(Value entry, IsPerson is_person, Keys keys) {
  if (is_person(entry)) return true;
  if (entry.is_list()) {
    const auto first = first_filled(entry);
    return first && is_person(*first);
  }
  const auto key = first_key(entry, keys);
  if (!key) return false;
  const Value inner = *entry.find(*key);
  return !inner.is_empty() && holds_people(inner, is_person, {});
}

void read_people(Value entry, const Spot& where, IsPerson is_person, Keys keys,
                 const ReadPerson& read, RawFrame& frame) {
  if (entry.is_empty()) return;
  const auto key = is_person(entry) ? std::nullopt : first_key(entry, keys);
  if (key) return read_people(*entry.find(*key), where.at(*key), is_person, {}, read, frame);
  const auto add = [&](Value person, const Spot& here) {
    RawPerson one = read(person, here);
    if (!one.body.empty() || !one.space.empty()) frame.add(std::move(one), here);
  };
  if (is_person(entry) || entry.is_object()) return add(entry, where);
  if (!entry.is_list()) {
    refuse(where, Fault::bad_value, "should be a list of people, is " + kind_of(entry));
  }
  std::size_t i = 0;
  for (const Value person : entry.list()) {
    const Spot here = where.at(i++);
    if (person.is_empty()) continue;
    if (!person.is_object() && !person.is_list()) {
      refuse(here, Fault::bad_value, "should be a person's points, is " + kind_of(person));
    }
    add(person, here);
  }
}

std::optional<Value> first_filled(Value list) {
  for (const Value entry : list.list()) {
    if (!entry.is_empty()) return entry;
  }
  return std::nullopt;
}

std::optional<std::string_view> first_key(Value object, Keys keys) {
  for (const auto key : keys) {
    if (object.has(key)) return key;
  }
  return std::nullopt;
}

std::optional<int> track_of(Value person) {
  for (const std::string_view key : {"track_id", "trackId", "track", "id", "tracker_id"}) {
    const auto value = person.find(key);
    const auto track = value ? value->whole() : std::nullopt;
    constexpr long long largest = 1'000'000'000;
    if (track && *track >= 0 && *track <= largest) return static_cast<int>(*track);
  }
  return std::nullopt;
}

}  // namespace rangecheck::intake
