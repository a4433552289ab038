// SPDX-License-Identifier: MIT
#include "generator/crowd_detector.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace rangecheck::samples {
namespace {

using Eigen::Array2d;
using Eigen::Vector2d;

struct Box {
  Array2d low{1e9, 1e9}, high{-1e9, -1e9};
  double height() const { return high.y() - low.y(); }
  bool holds(const Vector2d& at) const {
    return (at.array() > low).all() && (at.array() < high).all();
  }
};

Box box_of(const DetectedFrame& frame) {
  Box box;
  for (const auto& point : frame.image.values()) {
    if (!point) continue;
    box.low = box.low.min(point->at_px.array());
    box.high = box.high.max(point->at_px.array());
  }
  return box;
}

/// Share of the points of `far` that lie in the box about `near`.
double overlap(const DetectedFrame& far, const DetectedFrame& near) {
  const Box box = box_of(near);
  double inside = 0, all = 0;
  for (const auto& point : far.image.values()) {
    if (!point) continue;
    inside += box.holds(point->at_px);
    ++all;
  }
  return inside / std::max(1.0, all);
}

constexpr std::array arm_joints{Joint::elbow, Joint::wrist, Joint::index_1, Joint::little_1,
                                Joint::thumb_2};
constexpr std::array leg_joints{Joint::knee, Joint::ankle, Joint::heel, Joint::big_toe,
                                Joint::small_toe};

void take(DetectedFrame& to, const DetectedFrame& from, LandmarkId id) {
  if (!from.image[id]) return;
  to.image[id] = from.image[id];
  to.space[id] = from.space[id];
}

template <class Joints>
void take_limb(DetectedFrame& to, const DetectedFrame& from, Side side, const Joints& joints) {
  for (const Joint joint : joints) take(to, from, {side, joint});
}

bool of_lower_half(Joint joint) {
  return joint == Joint::hip ||
         std::find(leg_joints.begin(), leg_joints.end(), joint) != leg_joints.end();
}

/// What goes wrong where two overlap.
enum class Muddle { far_lost, near_lost, limb_to_far, limb_to_near, limbs_exchanged, blended };

Muddle draw_muddle(Random& random) {
  const double draw = random.uniform(0, 1);
  if (draw < 0.40) return Muddle::far_lost;
  if (draw < 0.50) return Muddle::near_lost;
  if (draw < 0.72) return Muddle::limb_to_far;
  if (draw < 0.82) return Muddle::limb_to_near;
  if (draw < 0.90) return Muddle::limbs_exchanged;
  return Muddle::blended;
}

/// One thing that goes wrong, for some frames.
struct Episode {
  Muddle muddle = Muddle::far_lost;
  std::size_t frames_left = 0;
  Side side = Side::lead;
  bool legs = false, both_sides = false, lower_of_near = false;
};

class CrowdReading {
 public:
  CrowdReading(Random& random, const CrowdOptions& options, const Camera& camera, double rate_hz,
               const std::vector<Appearance>& cast)
      : random_(random), options_(options), camera_(camera), rate_hz_(rate_hz), cast_(cast) {
    const double habit = random.uniform(0, 1);
    identities_ = habit < 0.4   ? Identities::real
                  : habit < 0.7 ? Identities::none
                                : Identities::same;
    for (std::size_t i = 0; i < cast.size(); ++i) identity_.push_back(next_identity_++);
    was_there_.assign(cast.size(), true);
  }

  std::vector<std::vector<Seen>> run() {
    std::vector<std::vector<Seen>> out;
    for (std::size_t f = 0; f < cast_.front().frames.size(); ++f) out.push_back(frame(f));
    return out;
  }

 private:
  enum class Identities { none, same, real };

  std::vector<Seen> frame(std::size_t f) {
    std::vector<std::optional<DetectedFrame>> given;
    for (const auto& each : cast_) given.push_back(each.frames[f]);
    for (std::size_t a = 0; a < cast_.size(); ++a) {
      for (std::size_t b = 0; b < cast_.size(); ++b) {
        if (a != b && cast_[a].depth_m[f] < cast_[b].depth_m[f]) muddle(f, a, b, given);
      }
    }
    std::vector<Seen> people;
    for (std::size_t i = 0; i < given.size(); ++i) {
      if (given[i] && !was_there_[i] && random_.chance(0.5)) identity_[i] = next_identity_++;
      was_there_[i] = given[i].has_value();
      if (!given[i]) continue;
      if (i == 0 && random_.chance(options_.duplicate_chance))
        people.push_back({duplicate(*given[i]), std::nullopt});
      people.push_back({*std::move(given[i]), identity(i)});
    }
    add_nobodies(f, people);
    for (std::size_t i = people.size(); i > 1; --i) {
      std::swap(people[i - 1], people[static_cast<std::size_t>(random_.uniform(0, double(i)))]);
    }
    return people;
  }

  std::optional<int> identity(std::size_t i) const {
    if (identities_ == Identities::none) return std::nullopt;
    return identities_ == Identities::same ? 0 : identity_[i];
  }

  void muddle(std::size_t f, std::size_t near, std::size_t far,
              std::vector<std::optional<DetectedFrame>>& given) {
    Episode& episode = episodes_[{near, far}];
    const auto& alone_near = cast_[near].frames[f];
    const auto& alone_far = cast_[far].frames[f];
    if (!alone_near || !alone_far) return;
    const double share = overlap(*alone_far, *alone_near);
    if (share < 0.15) episode.frames_left = 0;
    if (share > 0.3 && episode.frames_left == 0 &&
        random_.chance(options_.muddles_per_s / rate_hz_))
      episode = begin(near, far);
    if (episode.frames_left == 0) return;
    --episode.frames_left;
    apply(episode, *alone_near, *alone_far, given[near], given[far]);
  }

  Episode begin(std::size_t near, std::size_t far) {
    Episode episode;
    episode.muddle = draw_muddle(random_);
    episode.frames_left = 1 + static_cast<std::size_t>(random_.uniform(0.03, 0.35) * rate_hz_);
    episode.side = random_.chance(0.5) ? Side::lead : Side::trail;
    episode.legs = random_.chance(0.5);
    episode.both_sides = random_.chance(0.3);
    episode.lower_of_near = random_.chance(0.5);
    if (random_.chance(0.3)) std::swap(identity_[near], identity_[far]);
    return episode;
  }

  void apply(const Episode& episode, const DetectedFrame& alone_near,
             const DetectedFrame& alone_far, std::optional<DetectedFrame>& near,
             std::optional<DetectedFrame>& far) {
    const auto move_limbs = [&](std::optional<DetectedFrame>& to, const DetectedFrame& from) {
      if (!to) return;
      for (const Side side : {Side::lead, Side::trail}) {
        if (side != episode.side && !episode.both_sides) continue;
        if (episode.legs) take_limb(*to, from, side, leg_joints);
        if (!episode.legs) take_limb(*to, from, side, arm_joints);
      }
    };
    switch (episode.muddle) {
      case Muddle::far_lost:
        far.reset();
        return;
      case Muddle::near_lost:
        near.reset();
        return;
      case Muddle::limb_to_far:
        return move_limbs(far, alone_near);
      case Muddle::limb_to_near:
        return move_limbs(near, alone_far);
      case Muddle::limbs_exchanged:
        move_limbs(far, alone_near);
        return move_limbs(near, alone_far);
      case Muddle::blended:
        if (!near) return;
        far.reset();
        for (std::size_t i = 0; i < landmark_count; ++i) {
          const LandmarkId id = landmark_at(i);
          if (of_lower_half(id.joint) != episode.lower_of_near) take(*near, alone_far, id);
        }
        return;
    }
  }

  /// The same person once more, a little off.
  DetectedFrame duplicate(DetectedFrame frame) {
    const double off_px = 0.008 * box_of(frame).height(), sure = random_.uniform(0.75, 1.1);
    for (auto& point : frame.image.values()) {
      if (!point) continue;
      point->at_px += random_.normal_2d(off_px);
      point->confidence = std::clamp(sure * point->confidence, 0.0, 1.0);
    }
    return frame;
  }

  void add_nobodies(std::size_t f, std::vector<Seen>& people) {
    const auto& model = cast_[static_cast<std::size_t>(random_.uniform(0, double(cast_.size())))];
    const bool ghost = random_.chance(options_.ghost_chance),
               whole = random_.chance(options_.false_chance);
    if ((!ghost && !whole) || !model.frames[f]) return;
    DetectedFrame nobody = *model.frames[f];
    const Box box = box_of(nobody);
    const Vector2d middle = ((box.low + box.high) / 2).matrix();
    const Vector2d to(random_.uniform(0, camera_.width_px), random_.uniform(0, camera_.height_px));
    const double size = random_.uniform(0.15, 0.7);
    for (auto& point : nobody.image.values()) {
      if (!point) continue;
      point->at_px =
          to + size * (point->at_px - middle) + random_.normal_2d(0.03 * box.height() * size);
      point->confidence *= random_.uniform(0.2, 0.8);
      if (ghost && !random_.chance(0.2)) point.reset();
    }
    people.push_back({std::move(nobody), std::nullopt});
  }

  Random& random_;
  const CrowdOptions& options_;
  const Camera& camera_;
  double rate_hz_;
  const std::vector<Appearance>& cast_;
  Identities identities_ = Identities::none;
  std::vector<int> identity_;
  std::vector<bool> was_there_;
  int next_identity_ = 0;
  std::map<std::pair<std::size_t, std::size_t>, Episode> episodes_;
};

}  // namespace

std::vector<std::vector<Seen>> detect_crowd(Random& random, const CrowdOptions& options,
                                            const Camera& camera, double rate_hz,
                                            const std::vector<Appearance>& cast) {
  return CrowdReading(random, options, camera, rate_hz, cast).run();
}

}  // namespace rangecheck::samples
