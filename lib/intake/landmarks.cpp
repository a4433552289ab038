// SPDX-License-Identifier: MIT
#include "intake/landmarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>

#include "base/text.hpp"
#include "intake/assemble.hpp"
#include "intake/dialects/csv.hpp"
#include "intake/dialects/forms.hpp"
#include "intake/dialects/lone_people.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"
#include "intake/value.hpp"

namespace rangecheck::intake {
namespace {

/// What a document that nobody recognises looks like, so that the user can see what went wrong.
std::string describe(Value document) {
  const auto first = document.front();
  const Value sample = first ? *first : document;
  if (!sample.is_object()) {
    return document.is_list()
               ? fmt::format("an array of {} with {} first", document.size(), kind_of(sample))
               : kind_of(document);
  }
  std::string keys;
  constexpr std::size_t most_keys = 4;
  std::size_t shown = 0;
  for (const auto [key, value] : sample.members()) {
    if (shown++ == most_keys) break;
    keys += (keys.empty() ? "" : ", ") + rangecheck::quoted(key);
  }
  if (sample.size() > most_keys) keys += ", …";
  return fmt::format("{} with the keys {}",
                     document.is_list() ? "an array of objects" : "an object",
                     keys.empty() ? "none" : keys);
}

/// What an editor of hands writes: {"left_hand": [[x, y, c], …], …}.
bool holds_hands_only(Value document) {
  const auto left = document.find("left_hand"), right = document.find("right_hand");
  return (left && left->is_list()) || (right && right->is_list());
}

using Forms = std::span<const Form* const>;

const Form& form_of(Value document, Forms first, const Spot& root) {
  if (document.is_empty()) refuse(root, Fault::not_a_film, "holds no frames");
  for (const Form* form : first) {
    if (form->recognises(document)) return *form;
  }
  for (const Form* form : all_forms()) {
    if (form->recognises(document)) return *form;
  }
  if (holds_hands_only(document)) {
    refuse(root, Fault::not_a_film, "holds the points of hands only, without a body",
           "export the body's points too");
  }
  refuse(root, Fault::not_a_film,
         "isn't a landmark file of a known form: it is " + describe(document),
         "write it in the plain form that README shows");
}

// ------------------------------------------------------------------------------ many files

/// Puts points that follow `from`'s names in the order of `to`'s.
std::vector<RawPoint> reordered(const std::vector<RawPoint>& points,
                                const std::vector<std::string>& from, Names& to,
                                const Spot& where) {
  std::vector<RawPoint> moved;
  for (std::size_t i = 0; i < std::min(points.size(), from.size()); ++i) {
    const std::size_t index = to.index_of(from[i], where);
    if (moved.size() <= index) moved.resize(index + 1);
    moved[index] = points[i];
  }
  return moved;
}

/// Adds the only frame of `one`, whose names may be others or in another order, to `film`.
void append(RawFilm&& one, Names& names, RawFilm& film, const Spot& where) {
  RawFrame frame = std::move(one.frames.front());
  for (RawPerson& person : frame.people) {
    if (one.names.empty()) break;
    person.body = reordered(person.body, one.names, names, where);
    person.space = reordered(person.space, one.names, names, where);
  }
  if (film.frames.empty()) {
    film = std::move(one);
    film.frames.clear();
    film.people_added = film.points_added = 0;
  }
  film.add(std::move(frame), where);
}

const Form& same_form(const Form* before, const Form& now, const Spot& root) {
  if (before != nullptr && before != &now) {
    refuse(root, Fault::not_a_film, "is of another form than the files before it",
           "keep the files of one film in a folder of their own");
  }
  return now;
}

RawFilm read_many(std::vector<const LandmarkText*> files, Forms first) {
  std::stable_sort(files.begin(), files.end(),
                   [](const auto* a, const auto* b) { return natural_less(a->name, b->name); });
  RawFilm film;
  const Form* form = nullptr;
  Names names;
  std::vector<std::size_t> nobody;
  std::vector<std::string> file_names;
  for (const LandmarkText* file : files) {
    const std::size_t number = file_names.size();
    file_names.push_back(file->name);
    const Spot root = Spot(file->name).in_frame(number);
    const Document document(file->bytes, root);
    if (document.root().is_empty()) {
      nobody.push_back(number);
      continue;
    }
    form = &same_form(form, form_of(document.root(), first, root), root);
    RawFilm one = form->read(document.root(), root);
    if (one.bare_list) put_in_one_picture(one);
    if (one.frames.size() != 1) {
      refuse(root, Fault::not_a_film,
             fmt::format("holds {} frames; a film in many files has one frame in each",
                         one.frames.size()));
    }
    append(std::move(one), names, film, root);
  }
  if (form == nullptr) refuse(Spot(file_names.front()), Fault::not_a_film, "holds no frames");
  for (const std::size_t number : nobody) {
    film.frames.emplace(film.frames.begin() + static_cast<std::ptrdiff_t>(number));
  }
  film.names = names.all();
  const auto numbers = frame_numbers(file_names);
  for (std::size_t i = 0; i < numbers.size(); ++i) film.frames[i].number = numbers[i];
  return film;
}

RawFilm read_any(const std::vector<LandmarkText>& files, Forms first) {
  if (files.empty()) refuse(Spot(""), Fault::not_a_film, "there are no landmark files");
  if (files.size() > 1) {
    if (files.size() > most_frames) {
      refuse(Spot(files.front().name), Fault::not_a_film, "is one of too many files for a swing");
    }
    std::vector<const LandmarkText*> pointers;
    for (const auto& file : files) pointers.push_back(&file);
    return read_many(std::move(pointers), first);
  }
  const Spot root(files.front().name);
  if (is_table(files.front().bytes)) return read_table(files.front().bytes, root);
  const Document document(files.front().bytes, root);
  return form_of(document.root(), first, root).read(document.root(), root);
}

Film read_or_throw(const std::vector<LandmarkText>& files, const ReadOptions& options) {
  RawFilm raw = read_as_written(files, {});
  return assemble(std::move(raw), options, Spot(files.front().name));
}

}  // namespace

RawFilm read_as_written(const std::vector<LandmarkText>& files,
                        std::span<const Form* const> first) {
  RawFilm raw = read_any(files, first);
  const Spot where(files.front().name);
  if (raw.frames.empty()) refuse(where, Fault::not_a_film, "holds no frames");
  check_frame_count(raw.frames.size(), where);
  check_facts(raw, where);
  return raw;
}

Result<Film> read_landmarks(const std::vector<LandmarkText>& files, const ReadOptions& options) {
  const std::string name = files.empty() ? "" : files.front().name;
  try {
    return read_or_throw(files, options);
  } catch (const Refusal& refusal) {
    return refusal.error;
  } catch (const std::exception& caught) {
    Error error{Fault::unreadable, "can't be read: " + printable(caught.what()), {}, ""};
    error.where.file = name;
    return error;
  }
}

Result<Film> read_landmarks(const std::vector<LandmarkText>& files, std::optional<ImageSize> image,
                            Handedness handedness) {
  return read_landmarks(files, ReadOptions{.image = image, .handedness = handedness});
}

std::vector<std::string> known_dialects() {
  std::vector<std::string> lines;
  for (const Form* form : all_forms()) lines.emplace_back(form->structure);
  lines.emplace_back(table_structure);
  return lines;
}

}  // namespace rangecheck::intake
