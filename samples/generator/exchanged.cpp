// SPDX-License-Identifier: MIT
#include "generator/exchanged.hpp"

#include <algorithm>
#include <limits>

namespace rangecheck::samples {
namespace {

bool is_of(Part part, Joint joint) {
  const bool hand = joint == Joint::wrist || joint >= Joint::thumb_1;
  const bool foot = joint == Joint::heel || joint == Joint::big_toe || joint == Joint::small_toe;
  switch (part) {
    case Part::body:
      return true;
    case Part::legs:
      return foot || joint == Joint::hip || joint == Joint::knee || joint == Joint::ankle;
    case Part::arms:
      return hand || joint == Joint::shoulder || joint == Joint::elbow;
    case Part::feet:
      return foot || joint == Joint::ankle;
    case Part::knees:
      return joint == Joint::knee;
    case Part::hips:
      return joint == Joint::hip;
    case Part::elbows:
      return joint == Joint::elbow;
    case Part::shoulders:
      return joint == Joint::shoulder;
    case Part::hands:
      return hand;
    case Part::face:
      return joint == Joint::eye || joint == Joint::ear;
  }
  return false;
}

Landmarks exchange_in(DetectedFrame& frame, Part part) {
  Landmarks out;
  for (std::size_t i = central_joint_count; i + 1 < landmark_count; i += 2) {
    if (!is_of(part, landmark_at(i).joint)) continue;
    std::swap(frame.image.values()[i], frame.image.values()[i + 1]);
    std::swap(frame.space.values()[i], frame.space.values()[i + 1]);
    out.set(i);
    out.set(i + 1);
  }
  return out;
}

/// Frames from `first` up to and without `end`.
struct Stretch {
  std::size_t first = 0, end = 0;
};

Stretch draw_stretch(Random& random, std::size_t frames) {
  const double share = random.uniform(0.1, 0.5);
  const auto length = std::max<std::size_t>(1, static_cast<std::size_t>(share * double(frames)));
  const auto first = static_cast<std::size_t>(random.uniform(0, double(frames - length + 1)));
  return {first, std::min(frames, first + length)};
}

/// Mean distance between the two points of the part's pairs, pixels.
double apart_px(const DetectedFrame& frame, Part part) {
  double sum = 0;
  int pairs = 0;
  for (const Joint joint : {Joint::shoulder, Joint::elbow, Joint::wrist, Joint::hip, Joint::knee,
                            Joint::ankle, Joint::heel, Joint::big_toe, Joint::ear}) {
    const auto &a = frame.image[lead(joint)], &b = frame.image[trail(joint)];
    if (!is_of(part, joint) || !a || !b) continue;
    sum += (a->at_px - b->at_px).norm();
    ++pairs;
  }
  return pairs > 0 ? sum / pairs : std::numeric_limits<double>::max();
}

/// The frame, of those after `from`, in which the part's points are nearest to each other.
std::size_t nearest_after(std::span<const DetectedFrame> frames, std::size_t from, Part part) {
  std::size_t out = from;
  for (std::size_t f = from; f < frames.size(); ++f)
    if (apart_px(frames[f], part) < apart_px(frames[out], part)) out = f;
  return out;
}

std::vector<bool> frames_of(Random& random, std::span<const DetectedFrame> frames, Part part,
                            When when, const Moments& moments) {
  const std::size_t n = frames.size();
  std::vector<bool> out(n);
  Stretch stretch = draw_stretch(random, n);
  const auto some_frame = static_cast<std::size_t>(random.uniform(0, double(n)));
  const auto few = static_cast<std::size_t>(random.uniform(2, 3 + double(n) / 12));
  std::size_t every = 1;
  switch (when) {
    case When::always:
      stretch = {0, n};
      break;
    case When::stretch:
      break;
    case When::flicker:
      every = random.chance(0.5) ? 2 : 3;
      break;
    case When::crossing: {
      const std::size_t first = nearest_after(frames, some_frame, part);
      stretch = {first, nearest_after(frames, std::min(n - 1, first + few), part)};
      if (stretch.end <= stretch.first + few) stretch.end = random.chance(0.5) ? n : first + few;
      for (std::size_t f = first > few ? first - few : 0; f < first; ++f)
        out[f] = random.chance(0.4);
      break;
    }
    case When::top: {
      const std::size_t top = moments.top.value_or(some_frame);
      stretch = {top > few ? top - few : 0, top + few};
      break;
    }
    case When::finish:
      stretch = {moments.finish.value_or(some_frame), n};
      break;
  }
  stretch.end = std::min(stretch.end, n);
  for (std::size_t f = stretch.first; f < stretch.end; f += every) out[f] = true;
  return out;
}

}  // namespace

std::string_view name_of(Part part) {
  constexpr std::string_view names[] = {"body", "legs",   "arms",      "feet",  "knees",
                                        "hips", "elbows", "shoulders", "hands", "face"};
  return names[static_cast<std::size_t>(part)];
}

std::string_view name_of(When when) {
  constexpr std::string_view names[] = {"always",   "stretch", "flicker",
                                        "crossing", "top",     "finish"};
  return names[static_cast<std::size_t>(when)];
}

Exchanged exchange(Random& random, std::span<const DetectedFrame> frames, Part part, When when,
                   const Moments& moments) {
  Exchanged out;
  out.frames.assign(frames.begin(), frames.end());
  out.exchanged.resize(frames.size());
  if (frames.empty()) return out;
  const auto in = frames_of(random, frames, part, when, moments);
  for (std::size_t f = 0; f < frames.size(); ++f)
    if (in[f]) out.exchanged[f] = exchange_in(out.frames[f], part);
  return out;
}

void lose_points(Random& random, std::vector<DetectedFrame>& frames, double share) {
  for (auto& frame : frames) {
    for (auto& point : frame.image.values())
      if (random.chance(share)) point.reset();
  }
  constexpr Joint often_lost[] = {Joint::elbow, Joint::wrist, Joint::knee, Joint::ankle};
  const Joint joint = often_lost[static_cast<std::size_t>(random.uniform(0, 4))];
  const LandmarkId id = random.chance(0.5) ? lead(joint) : trail(joint);
  if (frames.empty() || share <= 0) return;
  const Stretch stretch = draw_stretch(random, frames.size());
  for (std::size_t f = stretch.first; f < stretch.end; ++f) frames[f].image[id].reset();
}

}  // namespace rangecheck::samples
