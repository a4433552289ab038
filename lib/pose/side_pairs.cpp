// SPDX-License-Identifier: MIT
#include "pose/side_pairs.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <span>

namespace rangecheck::pose {
namespace {

using intake::Person;

/// Top of the ears to the feet of a golfer of 1.75 m at address: trunk, neck and knees bent. Common
/// practice, no source.
constexpr double bent_height_m = 1.42;

/// Of two points the one that an estimator has seen and not guessed.
constexpr double clearly_surer = 0.25;

/// The joints that stand for each pair, the first one seen on both sides first.
constexpr std::array<std::array<Joint, 2>, pair_count> representatives{{
    {Joint::ear, Joint::eye},
    {Joint::shoulder, Joint::shoulder},
    {Joint::elbow, Joint::elbow},
    {Joint::wrist, Joint::wrist},
    {Joint::hip, Joint::hip},
    {Joint::knee, Joint::knee},
    {Joint::ankle, Joint::ankle},
    {Joint::heel, Joint::heel},
    {Joint::big_toe, Joint::small_toe},
}};

constexpr std::array<std::string_view, pair_count> names{
    "face", "shoulders", "elbows", "hands", "hips", "knees", "ankles", "heels", "toes"};

/// From the head to the lowest landmark: hands over the head do not count.
std::optional<double> height_px(const Person& person) {
  double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const auto& point = person.image.values()[i];
    if (!point || (!is_paired(id.joint) && id.joint != Joint::nose)) continue;
    if (is_paired(id.joint)) {
      const Pair pair = pair_of(id.joint);
      if (pair == Pair::elbows || pair == Pair::hands) continue;
    }
    low = std::min(low, point->at.y_px);
    high = std::max(high, point->at.y_px);
  }
  if (high <= low) return std::nullopt;
  return high - low;
}

double pixels_per_metre(const Track& track) {
  std::vector<double> heights;
  for (const TrackFrame& frame : track.frames) {
    if (!frame.person) continue;
    if (const auto height = height_px(*frame.person)) heights.push_back(*height);
  }
  return heights.empty() ? 1 : std::max(1.0, median(std::move(heights))) / bent_height_m;
}

/// The first joint of a pair that is seen on both sides, or the one that stands for it.
Joint joint_for(const Person& person, std::size_t pair) {
  const auto both = [&](Joint joint) {
    return person.image.has(lead(joint)) && person.image.has(trail(joint));
  };
  for (const Joint joint : representatives[pair])
    if (both(joint)) return joint;
  for (std::size_t i = central_joint_count; i < landmark_count; i += 2) {
    const Joint joint = landmark_at(i).joint;
    if (index_of(pair_of(joint)) == pair && both(joint)) return joint;
  }
  return representatives[pair][0];
}

/// Mean of lead minus trail over all points of the hands that are seen on both sides.
template <class Place>
std::optional<Flat> mean_apart(const Place& place) {
  Flat sum{};
  int seen = 0;
  for (std::size_t i = central_joint_count; i + 1 < landmark_count; i += 2) {
    if (pair_of(landmark_at(i).joint) != Pair::hands) continue;
    const auto a = place(landmark_at(i)), b = place(landmark_at(i + 1));
    if (!a || !b) continue;
    sum = sum + (*a - *b);
    ++seen;
  }
  if (seen == 0) return std::nullopt;
  return sum * (1.0 / seen);
}

/// From the first joint to the mean of the others, both sides together: the same whichever of a
/// pair is which. A unit vector; nothing where it points at the camera or away.
template <class Place>
std::optional<Flat> way_from(Joint first, std::initializer_list<Joint> others, const Place& place) {
  constexpr double least_m = 0.03;
  Flat sum{};
  for (const Side side : {Side::lead, Side::trail}) {
    const auto from = place({side, first});
    for (const Joint joint : others) {
      const auto to = place({side, joint});
      if (!from || !to) return std::nullopt;
      sum = sum + (*to - *from) * (0.5 / static_cast<double>(others.size()));
    }
  }
  const double length_m = std::sqrt(sum.squared());
  if (length_m < least_m) return std::nullopt;
  return sum * (1 / length_m);
}

template <class Place>
std::optional<Flat> way_of_hands(const Place& place) {
  if (const auto way = way_from(Joint::wrist, {Joint::index_1, Joint::little_1}, place)) return way;
  return way_from(Joint::elbow, {Joint::wrist}, place);
}

PairsFrame frame_of(const Person& person, double per_metre) {
  const auto place = [&](LandmarkId id) -> std::optional<Flat> {
    const auto& point = person.image[id];
    if (!point) return std::nullopt;
    return Flat{point->at.x_px / per_metre, point->at.y_px / per_metre};
  };
  PairsFrame out;
  out.sure.fill(1);
  for (std::size_t p = 0; p < pair_count; ++p) {
    const Joint joint = joint_for(person, p);
    out.lead[p] = place(lead(joint));
    out.trail[p] = place(trail(joint));
  }
  for (std::size_t i = central_joint_count; i + 1 < landmark_count; i += 2) {
    const auto a = place(landmark_at(i)), b = place(landmark_at(i + 1));
    double& widest_m = out.widest_m[index_of(pair_of(landmark_at(i).joint))];
    if (a && b) widest_m = std::max(widest_m, std::sqrt((*a - *b).squared()));
    if (a.has_value() != b.has_value()) widest_m = std::numeric_limits<double>::infinity();
  }
  for (std::size_t p = 0; p < pair_count; ++p) {
    const Joint joint = representatives[p][0];
    const auto &a = person.space[lead(joint)], &b = person.space[trail(joint)];
    if (a && b) out.deeper_m[p] = a->z_m - b->z_m;
    for (const LandmarkId id : {lead(joint), trail(joint)})
      if (person.image[id]) out.sure[p] = std::min(out.sure[p], person.image[id]->confidence);
  }
  // Fingers make a hand's place surer.
  constexpr auto hands = index_of(Pair::hands);
  if (const auto apart = mean_apart(place); apart && out.lead[hands] && out.trail[hands]) {
    const Flat middle = (*out.lead[hands] + *out.trail[hands]) * 0.5;
    out.lead[hands] = middle + *apart * 0.5;
    out.trail[hands] = middle - *apart * 0.5;
    out.widest_m[hands] = std::sqrt(apart->squared());
    if (const auto way = way_of_hands(place)) out.lead_hand_ahead_m = apart->dot(*way);
  }
  const auto middle = [&](Pair pair) -> std::optional<Flat> {
    const auto &a = out.lead[index_of(pair)], &b = out.trail[index_of(pair)];
    if (a && b) return (*a + *b) * 0.5;
    return a ? a : b;
  };
  out.shoulders = middle(Pair::shoulders);
  out.hands = middle(Pair::hands);
  // A far hand that is guessed is left out of it.
  const auto &a = person.image[lead(Joint::wrist)], &b = person.image[trail(Joint::wrist)];
  if (a && b && std::abs(a->confidence - b->confidence) > clearly_surer)
    out.hands = place(a->confidence > b->confidence ? lead(Joint::wrist) : trail(Joint::wrist));
  out.hips = middle(Pair::hips);
  return out;
}

}  // namespace

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

Pair pair_of(Joint joint) {
  switch (joint) {
    case Joint::eye:
    case Joint::ear:
      return Pair::face;
    case Joint::shoulder:
      return Pair::shoulders;
    case Joint::elbow:
      return Pair::elbows;
    case Joint::hip:
      return Pair::hips;
    case Joint::knee:
      return Pair::knees;
    case Joint::ankle:
      return Pair::ankles;
    case Joint::heel:
      return Pair::heels;
    case Joint::big_toe:
    case Joint::small_toe:
      return Pair::toes;
    default:
      return Pair::hands;
  }
}

std::vector<Message> names_of(PairSet pairs) {
  if (pairs == all_pairs) return {{"pairs.whole-body"}};
  std::vector<Message> out;
  for (std::size_t p = 0; p < pair_count; ++p)
    if (pairs >> p & 1U) out.push_back({"pairs." + std::string(names[p])});
  return out;
}

Pairs pairs_of(const Track& track) {
  Pairs out;
  out.pixels_per_metre = pixels_per_metre(track);
  out.frames.reserve(track.frames.size());
  for (const TrackFrame& frame : track.frames) {
    if (frame.person) {
      out.frames.emplace_back(frame_of(*frame.person, out.pixels_per_metre));
    } else {
      out.frames.emplace_back();
    }
  }
  return out;
}

}  // namespace rangecheck::pose
