// SPDX-License-Identifier: MIT
#include "pose/golfer.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "pose/choose.hpp"
#include "pose/parts.hpp"
#include "pose/sides.hpp"
#include "pose/upside_down.hpp"

namespace rangecheck::pose {
namespace {

/// Less sure than this of who the golfer is, nobody is graded.
constexpr double least_certainty = 0.9;
/// Where somebody else swings too and is about as large.
constexpr double least_certainty_of_two = 0.99;
/// So many people in fewer frames than this are fewer people, and something taken for one.
constexpr std::size_t least_frames = 3;
/// Of the golfer's frames, no more than this share may be in doubt.
constexpr double most_in_doubt = 0.5;
/// Joined hands that move farther than this about the hips, over height, swing a club.
constexpr double swings = 0.06;

Track track_of(const intake::FilmedView& view, const Someone& golfer) {
  Track out;
  out.view = view.view;
  for (const auto& frame : view.film.frames) {
    out.people_seen = std::max(out.people_seen, frame.people.size());
    out.frames.push_back({frame.number, frame.time, std::nullopt});
  }
  for (const At& at : golfer.seen())
    out.frames[at.frame].person = view.film.frames[at.frame].people[at.person];
  return out;
}

Error nobody(std::string_view film_name) {
  return {Fault::not_a_film,
          fmt::format("no person in the {} film", film_name),
          {},
          "film the whole body against a plain background"};
}

Error no_clear_golfer(std::string_view film_name, bool two_people) {
  return two_people
             ? Error{Fault::disagreement,
                     fmt::format("two people in the {} film are as likely to be the golfer",
                                 film_name),
                     {},
                     "film the golfer alone, or nearer than anyone else"}
             : Error{Fault::disagreement,
                     fmt::format("the {} film jumps from one place to another as if there were two "
                                 "golfers",
                                 film_name),
                     {},
                     "film one swing without a cut, with the whole body in the picture"};
}

Error too_near(std::string_view film_name) {
  return {Fault::disagreement,
          fmt::format("in most of the {} film someone is so near the golfer that the two can't be "
                      "told apart",
                      film_name),
          {},
          "film the golfer with nobody in front or behind"};
}

Error upside_down_throughout(std::string_view film_name) {
  return {
      Fault::not_a_film,
      fmt::format("the estimator has the golfer upside down all through the {} film", film_name),
      {},
      "film in better light against a plain background and read the film again"};
}

/// How many people are in the film at once, for longer than a moment.
std::size_t people_at_once(const Sightings& sightings) {
  std::vector<std::size_t> counts;
  for (const auto& people : sightings.frames) {
    counts.push_back(static_cast<std::size_t>(std::count_if(
        people.begin(), people.end(), [](const Shape& shape) { return shape.is_body(); })));
  }
  if (counts.size() < least_frames) return 1;
  std::nth_element(counts.begin(), counts.begin() + least_frames - 1, counts.end(),
                   std::greater<>());
  return counts[least_frames - 1];
}

const char* how_sure(double certainty) {
  return certainty >= 0.99   ? "people.nearly-certain"
         : certainty >= 0.95 ? "people.very-likely"
                             : "people.likely";
}

/// Who of several was taken for the golfer, and how sure that is.
Message who_was_graded(std::size_t people, const Choice& choice,
                       const std::vector<Candidate>& candidates) {
  const bool reflection = std::any_of(candidates.begin(), candidates.end(), [](const auto& each) {
    return each.reflection && each.signs.presence > 0.1;
  });
  Message who{candidates[choice.golfer].signs.hands_range > swings ? "people.who-swings"
                                                                   : "people.who-stands",
              {{"people", people}, said("sure", {how_sure(choice.certainty)})}};
  return reflection ? Message{"people.and-reflection", {said("who", std::move(who))}} : who;
}

/// Frames in which the golfer was not told from someone at the same place.
std::size_t frames_in_doubt(const Sightings& sightings, const Track& track, const Someone& golfer) {
  std::size_t out = 0;
  for (std::size_t f = golfer.first().frame; f < golfer.last().frame; ++f) {
    if (track.frames[f].person) continue;
    const auto there = shape_at(sightings, golfer, sightings.when[f]);
    const auto& people = sightings.frames[f];
    out += there && std::any_of(people.begin(), people.end(), [&](const Shape& shape) {
             return shape.is_body() && boxes_touch(shape, *there, 0);
           });
  }
  return out;
}

/// Takes out what is, or may be, somebody else's; the share of frames of which nothing is left.
double drop_foreign(Track& track, const Sightings& sightings, const std::vector<Someone>& people,
                    std::size_t golfer) {
  std::size_t whole = frames_in_doubt(sightings, track, people[golfer]), parts = 0;
  for (const Foreign& each : foreign_parts(sightings, people, golfer)) {
    auto& person = track.frames[each.at.frame].person;
    (each.whole ? whole : parts) += 1;
    for (std::size_t k = 0; k < part_count; ++k)
      if (each.part[k]) remove_part(*person, static_cast<Part>(k));
    if (each.whole) person.reset();
  }
  const auto add = [&track](const char* id, std::size_t frames) {
    if (frames > 0) track.notes.push_back({id, {{"frames", frames}, {"all", track.frames.size()}}});
  };
  add("people.too-near", whole);
  add("people.foreign-parts", parts);
  return static_cast<double>(whole) / static_cast<double>(track.frames.size());
}

}  // namespace

Result<Track> follow_golfer(const intake::FilmedView& view) {
  const std::string film_name{intake::name_of(view.view)};
  const auto rate_hz = view.frame_rate_hz ? view.frame_rate_hz : view.film.frame_rate_hz;
  const Sightings sightings = sightings_of(view.film, rate_hz);
  const auto people = people_of(sightings);
  if (people.empty()) return nobody(film_name);
  Choice choice;
  std::vector<Candidate> candidates;
  if (people.size() > 1) {
    candidates = candidates_of(sightings, people, view);
    choice = choose(sightings, people, candidates);
  }
  const Someone& golfer = people[choice.golfer];
  Track out = track_of(view, golfer);
  // First of all: a body on its head looks like several that jump about.
  if (upside_down_frames(out) == golfer.frames()) return upside_down_throughout(film_name);
  if (choice.certainty < (choice.both_swing ? least_certainty_of_two : least_certainty))
    return no_clear_golfer(film_name, together(golfer, people[*choice.rival]));
  out.certainty = choice.certainty;
  if (const auto at_once = people_at_once(sightings); people.size() > 1 && at_once > 1) {
    out.notes.push_back(who_was_graded(at_once, choice, candidates));
    if (drop_foreign(out, sightings, people, choice.golfer) > most_in_doubt)
      return too_near(film_name);
  }
  if (const auto dropped = drop_upside_down(out); dropped > 0) {
    out.notes.push_back({"people.upside-down", {{"frames", dropped}, {"all", out.frames.size()}}});
  }
  if (const auto error = mend_sides(out)) return *error;
  return out;
}

}  // namespace rangecheck::pose
