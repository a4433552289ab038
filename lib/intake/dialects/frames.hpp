// SPDX-License-Identifier: MIT
// What programs write around an estimator's results to keep those of a whole film together: the
// same few containers whoever the estimator is. A dialect says how it writes one frame and one
// person; this finds them.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string_view>

#include "intake/raw_film.hpp"
#include "intake/value.hpp"

namespace rangecheck::intake {

/// How a dialect writes what was found in one frame. Neither function is asked about null, [] or
/// {}, which are frames without people.
struct FrameShape {
  bool (*is_frame)(Value entry);
  bool (*is_person)(Value entry);  ///< a frame may be one person without a list around
};

/// True for a frame, [frame, …], {"frames": [frame, …]} under that or another key, or
/// {"0.jpg": frame, …}. Frames without people may come first.
bool holds_frames(Value document, const FrameShape& shape);

using ReadFrame = std::function<void(Value entry, const Spot& where, RawFrame& frame)>;

/// Adds all frames of such a document to `film`, in order, calling `read` for those that are not
/// empty. Numbers and times are those beside the people, or the numbers in the pictures' names;
/// picture size and frame rate those of the document.
///
/// A bare list of persons is one picture's people or one person's pictures: people stand beside
/// each other, and the entries of a film are nearly in one place.
void read_frames(Value document, const Spot& where, const FrameShape& shape, const ReadFrame& read,
                 RawFilm& film);

using IsPerson = bool (*)(Value entry);
using Keys = std::span<const std::string_view>;

/// True for a person, [person, …], or either under one of `keys`.
bool holds_people(Value entry, IsPerson is_person, Keys keys);

using ReadPerson = std::function<RawPerson(Value person, const Spot& where)>;

/// Adds each of those people who has points to `frame`.
void read_people(Value entry, const Spot& where, IsPerson is_person, Keys keys,
                 const ReadPerson& read, RawFrame& frame);

/// The first entry of a list that is not null, [] or {}.
std::optional<Value> first_filled(Value list);
/// The first of `keys` that the object has.
std::optional<std::string_view> first_key(Value object, Keys keys);
/// The estimator's number of a person, where it keeps one over the frames.
std::optional<int> track_of(Value person);

}  // namespace rangecheck::intake
