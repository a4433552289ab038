// SPDX-License-Identifier: MIT
#include "pose/golfer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace rangecheck::pose {
namespace {

using intake::Person;

/// A person may move this share of their own height from one sighting to the next and be the same.
constexpr double most_step = 0.35;
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
      if (bodies[b].landmarks >= least_landmarks && step < most_step) pairs.push_back({step, c, b});
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

/// Mean of lead minus trail along the picture for the lower body, which never turns past the camera
/// in a swing, over the person's height. Nothing when fewer than two pairs are seen.
std::optional<double> lead_side_offset(const Person& person) {
  double sum = 0;
  int pairs = 0;
  for (const Joint joint : {Joint::hip, Joint::knee, Joint::ankle, Joint::heel}) {
    const auto &a = person.image[lead(joint)], &b = person.image[trail(joint)];
    if (!a || !b) continue;
    sum += a->at.x_px - b->at.x_px;
    ++pairs;
  }
  if (pairs < 2) return std::nullopt;
  return sum / pairs / std::max(1.0, body_of(person).height_px);
}

/// Toes lower in the picture than heels: the person faces the camera (which looks down on feet).
bool faces_camera(const Person& person) {
  double down = 0;
  for (const Side side : {Side::lead, Side::trail}) {
    const auto& toe = person.image[{side, Joint::big_toe}];
    const auto& heel = person.image[{side, Joint::heel}];
    if (toe && heel) down += toe->at.y_px - heel->at.y_px;
  }
  return down >= 0;
}

void exchange_sides(Person& person) {
  for (std::size_t i = central_joint_count; i + 1 < landmark_count; i += 2) {
    std::swap(person.image.values()[i], person.image.values()[i + 1]);
    std::swap(person.space.values()[i], person.space.values()[i + 1]);
  }
}

/// From the front, lead is on the target side of the picture. An estimator that takes a face
/// looking down for the back of a head gives every pair the other way round: such frames are put
/// right.
void mend_sides(Track& track) {
  std::size_t exchanged = 0;
  for (TrackFrame& frame : track.frames) {
    if (!frame.person) continue;
    const auto offset = lead_side_offset(*frame.person);
    if (!offset || *offset > -0.04 || !faces_camera(*frame.person)) continue;
    exchange_sides(*frame.person);
    ++exchanged;
  }
  if (exchanged == 0) return;
  track.sides_exchanged = true;
  track.notes.push_back(fmt::format(
      "in {} of {} frames the estimator had taken the golfer's front for the back: left and right "
      "were put right",
      exchanged, track.frames.size()));
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
    return Error{Fault::disagreement,
                 fmt::format("two people in the {} film are as likely to be the golfer", film_name),
                 {},
                 "film the golfer alone, or nearer than anyone else"};
  }
  Track out;
  out.view = view.view;
  out.people_seen = 1;
  for (std::size_t f = 0; f < view.film.frames.size(); ++f) {
    const auto& frame = view.film.frames[f];
    out.people_seen = std::max(out.people_seen, frame.people.size());
    TrackFrame each{frame.number, frame.time, std::nullopt};
    if (chains[0].person[f] >= 0) {
      each.person = frame.people[static_cast<std::size_t>(chains[0].person[f])];
    }
    out.frames.push_back(std::move(each));
  }
  if (out.people_seen > 1) {
    out.notes.push_back(fmt::format(
        "up to {} people in a frame of the {} film: the largest one that stays was graded",
        out.people_seen, film_name));
  }
  if (view.view == intake::View::face_on) mend_sides(out);
  return out;
}

}  // namespace rangecheck::pose
