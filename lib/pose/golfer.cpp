// SPDX-License-Identifier: MIT
#include "pose/golfer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>

#include "pose/sides.hpp"

namespace rangecheck::pose {
namespace {

using intake::Person;

/// A person may move this share of their own height from one sighting to the next and be the same.
constexpr double most_step = 0.35;
/// Nor do they shrink or grow by more: someone behind the golfer is smaller.
constexpr double most_growth = 1.6;
/// Of two chains of people, the second must be clearly smaller or shorter to be a bystander.
constexpr double clear_margin = 0.75;
/// Fewer landmarks than this are not a body: parts of someone, a hand, a ghost.
constexpr int least_landmarks = 6;

/// Where a person is in the picture and how large.
struct Body {
  double x_px = 0, y_px = 0;  ///< middle of the landmarks
  double height_px = 0;
  int landmarks = 0;
};

Body body_of(const Person& person) {
  Body out;
  double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
  for (const auto& point : person.image.values()) {
    if (!point) continue;
    out.x_px += point->at.x_px;
    out.y_px += point->at.y_px;
    low = std::min(low, point->at.y_px);
    high = std::max(high, point->at.y_px);
    ++out.landmarks;
  }
  if (out.landmarks == 0) return out;
  out.x_px /= out.landmarks;
  out.y_px /= out.landmarks;
  out.height_px = high - low;
  return out;
}

/// One person through the film: for each frame an index into its people, or −1.
struct Chain {
  std::vector<int> person;
  Body last;
  std::size_t frames = 0;
  double height_sum_px = 0;

  /// Large and long is what the golfer is: the film was made of them.
  double prominence() const { return height_sum_px; }
};

double step_between(const Body& a, const Body& b) {
  return std::hypot(a.x_px - b.x_px, a.y_px - b.y_px) / std::max(1.0, a.height_px);
}

double growth_between(const Body& a, const Body& b) {
  const auto [small, large] = std::minmax(std::max(1.0, a.height_px), std::max(1.0, b.height_px));
  return large / small;
}

/// Links each body of a frame to the nearest chain, nearest pairs first, or starts a new chain.
void link_frame(std::vector<Chain>& chains, const std::vector<Body>& bodies, std::size_t frame,
                std::size_t frames) {
  struct Pair {
    double step;
    std::size_t chain, body;
  };
  std::vector<Pair> pairs;
  for (std::size_t c = 0; c < chains.size(); ++c) {
    for (std::size_t b = 0; b < bodies.size(); ++b) {
      const double step = step_between(chains[c].last, bodies[b]);
      if (bodies[b].landmarks >= least_landmarks && step < most_step &&
          growth_between(chains[c].last, bodies[b]) < most_growth) {
        pairs.push_back({step, c, b});
      }
    }
  }
  std::sort(pairs.begin(), pairs.end(),
            [](const Pair& a, const Pair& b) { return a.step < b.step; });
  std::vector<bool> chain_taken(chains.size()), body_taken(bodies.size());
  const auto extend = [&](Chain& chain, std::size_t b) {
    chain.person[frame] = static_cast<int>(b);
    chain.last = bodies[b];
    chain.height_sum_px += bodies[b].height_px;
    ++chain.frames;
    body_taken[b] = true;
  };
  for (const Pair& pair : pairs) {
    if (chain_taken[pair.chain] || body_taken[pair.body]) continue;
    chain_taken[pair.chain] = true;
    extend(chains[pair.chain], pair.body);
  }
  for (std::size_t b = 0; b < bodies.size(); ++b) {
    if (body_taken[b] || bodies[b].landmarks < least_landmarks) continue;
    chains.push_back({std::vector<int>(frames, -1), {}, 0, 0});
    extend(chains.back(), b);
  }
}

std::vector<Chain> chains_of(const intake::Film& film) {
  std::vector<Chain> chains;
  for (std::size_t f = 0; f < film.frames.size(); ++f) {
    std::vector<Body> bodies;
    for (const Person& person : film.frames[f].people) bodies.push_back(body_of(person));
    link_frame(chains, bodies, f, film.frames.size());
  }
  std::sort(chains.begin(), chains.end(),
            [](const Chain& a, const Chain& b) { return a.prominence() > b.prominence(); });
  return chains;
}

/// Middle height in the picture of those of `joints` that are seen; larger is lower.
std::optional<double> height_of(const Person& person, std::span<const LandmarkId> joints) {
  double sum_px = 0;
  int seen = 0;
  for (const LandmarkId id : joints) {
    if (!person.image[id]) continue;
    sum_px += person.image[id]->at.y_px;
    ++seen;
  }
  if (seen == 0) return std::nullopt;
  return sum_px / seen;
}

/// Head below hips or feet, or hips below feet: an estimator that took the body for its mirror
/// image on the ground. No swing looks like that.
bool upside_down(const Person& person) {
  constexpr std::array head{centre(Joint::nose), lead(Joint::eye), trail(Joint::eye),
                            lead(Joint::ear), trail(Joint::ear)};
  constexpr std::array hips{lead(Joint::hip), trail(Joint::hip)};
  constexpr std::array feet{lead(Joint::ankle), trail(Joint::ankle)};
  const auto head_px = height_of(person, head), hips_px = height_of(person, hips),
             feet_px = height_of(person, feet);
  return (head_px && hips_px && *head_px > *hips_px) ||
         (head_px && feet_px && *head_px > *feet_px) || (hips_px && feet_px && *hips_px > *feet_px);
}

/// Empties the frames in which the golfer is upside down; how many these were. Done after the
/// golfer was chosen: a bystander must not win because the golfer's frames fell away.
std::size_t drop_upside_down(Track& track) {
  std::size_t dropped = 0;
  for (TrackFrame& frame : track.frames) {
    if (!frame.person || !upside_down(*frame.person)) continue;
    frame.person.reset();
    ++dropped;
  }
  return dropped;
}

Track track_of(const intake::FilmedView& view, const Chain& golfer) {
  Track out;
  out.view = view.view;
  out.people_seen = 1;
  for (std::size_t f = 0; f < view.film.frames.size(); ++f) {
    const auto& frame = view.film.frames[f];
    out.people_seen = std::max(out.people_seen, frame.people.size());
    TrackFrame each{frame.number, frame.time, std::nullopt};
    if (golfer.person[f] >= 0)
      each.person = frame.people[static_cast<std::size_t>(golfer.person[f])];
    out.frames.push_back(std::move(each));
  }
  return out;
}

/// Whether two chains are ever in the same frame: then they are two people for certain.
bool together(const Chain& a, const Chain& b) {
  for (std::size_t f = 0; f < a.person.size(); ++f)
    if (a.person[f] >= 0 && b.person[f] >= 0) return true;
  return false;
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

}  // namespace

Result<Track> follow_golfer(const intake::FilmedView& view) {
  const auto chains = chains_of(view.film);
  const std::string film_name{intake::name_of(view.view)};
  if (chains.empty()) {
    return Error{Fault::not_a_film,
                 fmt::format("no person in the {} film", film_name),
                 {},
                 "film the whole body against a plain background"};
  }
  if (chains.size() > 1 && chains[1].prominence() > clear_margin * chains[0].prominence()) {
    return no_clear_golfer(film_name, together(chains[0], chains[1]));
  }
  Track out = track_of(view, chains[0]);
  if (out.people_seen > 1) {
    out.notes.push_back(fmt::format(
        "up to {} people in a frame of the {} film: the largest one that stays was graded",
        out.people_seen, film_name));
  }
  if (const std::size_t dropped = drop_upside_down(out); dropped == chains[0].frames) {
    return Error{
        Fault::not_a_film,
        fmt::format("the estimator has the golfer upside down all through the {} film", film_name),
        {},
        "film in better light against a plain background and read the film again"};
  } else if (dropped > 0) {
    out.notes.push_back(fmt::format(
        "in {} of {} frames the estimator had the golfer upside down: they were left out", dropped,
        out.frames.size()));
  }
  mend_sides(out);
  return out;
}

}  // namespace rangecheck::pose
