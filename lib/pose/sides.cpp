// SPDX-License-Identifier: MIT
#include "pose/sides.hpp"

#include <fmt/format.h>

#include <cmath>
#include <span>
#include <vector>

#include "pose/side_facing.hpp"
#include "pose/side_verdicts.hpp"

namespace rangecheck::pose {
namespace {

using intake::Person;

bool in_one_place(const Person& person, std::size_t lead, double no_matter_px) {
  const auto &a = person.image.values()[lead], &b = person.image.values()[lead + 1];
  return a && b && std::hypot(a->at.x_px - b->at.x_px, a->at.y_px - b->at.y_px) < no_matter_px;
}

/// Of pairs that are not to be told, only points that lie apart go.
void apply(const Verdicts& verdicts, double pixels_per_metre, Person& person) {
  auto& image = person.image.values();
  auto& space = person.space.values();
  for (std::size_t i = central_joint_count; i + 1 < landmark_count; i += 2) {
    const auto pair = index_of(pair_of(landmark_at(i).joint));
    if (verdicts.exchanged >> pair & 1U) {
      std::swap(image[i], image[i + 1]);
      std::swap(space[i], space[i + 1]);
    }
    if (!(verdicts.open >> pair & 1U)) continue;
    const bool hands = pair == index_of(Pair::hands);
    if (!hands && in_one_place(person, i, no_matter_m(pair) * pixels_per_metre)) continue;
    for (const std::size_t each : {i, i + 1}) {
      image[each].reset();
      space[each].reset();
    }
  }
}

/// A pair that can't be told apart in this share of the frames in which it matters is not to be
/// trusted in the others. Hands are: they roll past each other through impact faster than a film
/// can follow, and what was told before that stands.
constexpr double most_open = 1.0 / 3;

void open_throughout(const Pairs& pairs, std::vector<Verdicts>& film) {
  for (std::size_t p = 0; p < pair_count; ++p) {
    const PairSet pair = 1U << p;
    if (pair == only(Pair::hands)) continue;
    std::size_t open = 0, all = 0;
    for (std::size_t f = 0; f < film.size(); ++f) {
      if (!pairs.frames[f] || !(pairs.frames[f]->widest_m[p] > no_matter_m(p))) continue;
      ++all;
      open += (film[f].open & pair) != 0;
    }
    if (static_cast<double>(open) <= most_open * static_cast<double>(all)) continue;
    for (std::size_t f = 0; f < film.size(); ++f) {
      if (!pairs.frames[f] || !(pairs.frames[f]->widest_m[p] > no_matter_m(p))) continue;
      film[f].open |= pair;
      film[f].exchanged &= ~pair;
      film[f].visible &= ~pair;
    }
  }
}

/// Whether most of the body is left out most of the time. Hands are few points of it.
bool mostly_open(const Pairs& pairs, std::span<const Verdicts> film) {
  std::size_t open = 0, all = 0;
  for (std::size_t f = 0; f < film.size(); ++f) {
    if (!pairs.frames[f]) continue;
    for (std::size_t p = 0; p < pair_count; ++p) {
      if (p == index_of(Pair::hands) || !(pairs.frames[f]->widest_m[p] > no_matter_m(p))) continue;
      ++all;
      open += film[f].open >> p & 1U;
    }
  }
  return 2 * open > all;
}

Error not_to_be_told(intake::View view) {
  Error error;
  error.fault = Fault::disagreement;
  error.what = fmt::format("left and right can't be told apart in most of the {} film",
                           intake::name_of(view));
  error.remedy =
      "check that the view is the right one; film one swing from address on, in good light, or "
      "read "
      "the film with another estimator";
  return error;
}

/// What was done to a film.
struct Done {
  std::size_t front_for_back = 0, mended = 0, left_out = 0;  ///< frames
  PairSet pairs_mended = 0, pairs_left_out = 0, pairs_believed = 0;

  void add(const Verdicts& verdicts, bool whole) {
    front_for_back += whole;
    mended += !whole && verdicts.visible != 0;
    left_out += verdicts.open != 0;
    if (!whole) pairs_mended |= verdicts.visible;
    pairs_left_out |= verdicts.open;
    pairs_believed |= verdicts.believed & ~verdicts.open;
  }
};

void tell(const Done& done, Track& track) {
  const auto add = [&track](const char* id, std::size_t frames, PairSet pairs) {
    if (frames == 0) return;
    track.notes.push_back(
        {id, {{"frames", frames}, {"all", track.frames.size()}, {"pairs", names_of(pairs)}}});
  };
  add("sides.front-for-back", done.front_for_back, all_pairs);
  add("sides.put-right", done.mended, done.pairs_mended);
  add("sides.left-out", done.left_out, done.pairs_left_out);
}

/// Where the film itself does not tell and nothing was done about it.
void tell_of_belief(const Judged& judged, const Done& done, Facing facing, Track& track) {
  const PairSet believed =
      (judged.believed & ~judged.exchanged_ever & ~done.pairs_left_out) | done.pairs_believed;
  if (facing == Facing::named_back) {
    track.notes.push_back({"sides.front-or-back"});
  } else if (believed != 0) {
    track.notes.push_back({"sides.believed", {{"pairs", names_of(believed)}}});
  }
}

}  // namespace

std::optional<Error> mend_sides(Track& track) {
  const Pairs pairs = pairs_of(track);
  const Phases phases = phases_of(pairs);
  if (auto error = other_hand(pairs, phases, track.view)) return error;
  const bool face_on = track.view == intake::View::face_on;
  const Facing facing = face_on ? facing_of(pairs, phases) : Facing::front;
  const bool back = facing == Facing::back || facing == Facing::named_back;
  const Judged judged = judge(pairs, phases, track.view, back);
  std::vector<Verdicts> film(track.frames.size());
  for (std::size_t f = 0; f < film.size(); ++f)
    if (pairs.frames[f]) film[f] = verdicts_of(*pairs.frames[f], judged, f);
  open_throughout(pairs, film);
  if (mostly_open(pairs, film)) return not_to_be_told(track.view);
  Done done;
  for (std::size_t f = 0; f < film.size(); ++f) {
    if (!pairs.frames[f]) continue;
    Person& person = *track.frames[f].person;
    const Verdicts& verdicts = film[f];
    apply(verdicts, pairs.pixels_per_metre, person);
    const bool whole = face_on && verdicts.seen != 0 &&
                       ((verdicts.exchanged | verdicts.open) & verdicts.seen) == verdicts.seen &&
                       verdicts.visible != 0;
    // Depth is neither right nor mirrored where a front was taken for a back.
    if (whole)
      for (auto& point : person.space.values()) point.reset();
    done.add(verdicts, whole);
  }
  track.sides_exchanged = done.front_for_back > 0;
  tell(done, track);
  tell_of_belief(judged, done, facing, track);
  return std::nullopt;
}

}  // namespace rangecheck::pose
