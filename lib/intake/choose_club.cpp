// SPDX-License-Identifier: MIT
#include "intake/choose_club.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

namespace rangecheck::intake {
namespace {

constexpr double nowhere = std::numeric_limits<double>::infinity();

/// All of these over the person's height in the picture; common practice, no source. A grip is in
/// the hands; a head at most a driver's 1.2 m away, nearer to the camera than the body.
constexpr double grip_reach = 0.25;
constexpr double head_reach = 1.0;
constexpr double set_down = 0.12;
/// Over the picture's height: a club head is about so long in a film of a whole golfer.
constexpr double lying_still = 0.02;

constexpr Joint grip_joints[] = {Joint::grip_end, Joint::hands_mid};
constexpr Joint other_joints[] = {Joint::shaft_mid, Joint::hosel, Joint::club_toe};

double distance_px(ImagePoint a, ImagePoint b) {
  return std::hypot(a.x_px - b.x_px, a.y_px - b.y_px);
}

/// Middle of those of the two joints that are seen.
std::optional<ImagePoint> middle_of(const Person& person, Joint joint) {
  const auto &a = person.image[lead(joint)], &b = person.image[trail(joint)];
  if (a && b) return ImagePoint{(a->at.x_px + b->at.x_px) / 2, (a->at.y_px + b->at.y_px) / 2};
  if (a) return a->at;
  if (b) return b->at;
  return std::nullopt;
}

double height_of(const Person& person) {
  double low = nowhere, high = -nowhere;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& point = person.image[landmark_at(i)];
    if (!point || is_of_club_or_ball(landmark_at(i).joint)) continue;
    low = std::min(low, point->at.y_px);
    high = std::max(high, point->at.y_px);
  }
  return std::max(high - low, 0.0);
}

double nearest_px(const FoundClub& found, std::span<const Joint> joints, ImagePoint to) {
  double nearest = nowhere;
  for (const Joint joint : joints) {
    if (found[joint]) nearest = std::min(nearest, distance_px(found[joint]->at, to));
  }
  return nearest;
}

std::size_t club_points_in(const FoundClub& found) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < club_joint_count; ++i) {
    count += club_joint(i) != Joint::ball && found.points[i];
  }
  return count;
}

/// The end of what was found of a club.
std::optional<ImagePoint> head_of(const FoundClub& found) {
  for (const Joint joint : {Joint::hosel, Joint::club_toe, Joint::shaft_mid}) {
    if (found[joint]) return found[joint]->at;
  }
  return std::nullopt;
}

/// The largest in the picture: whose film it is most likely.
const Person* largest_of(const Frame& frame) {
  const Person* largest = nullptr;
  for (const Person& person : frame.people) {
    if (largest == nullptr || height_of(person) > height_of(*largest)) largest = &person;
  }
  return largest;
}

/// No club on the ground is held then.
bool has_hands_up(const Person* person) {
  if (person == nullptr) return false;
  const auto hands = middle_of(*person, Joint::wrist), hips = middle_of(*person, Joint::hip);
  return hands && hips && hands->y_px < hips->y_px;
}

struct LyingBall {
  ImagePoint at;
  std::size_t frames = 0, frames_by_head = 0;
  double nearest_px = nowhere;  ///< to a head or the feet
};

/// A head that may have been set down by a ball, or feet, which are by none.
struct Near {
  ImagePoint at;
  double within_px;
};

void note_ball(std::vector<LyingBall>& balls, ImagePoint at, double within_px,
               const std::vector<Near>& heads_and_feet) {
  auto ball = std::find_if(balls.begin(), balls.end(), [&](const LyingBall& each) {
    return distance_px(each.at, at) <= within_px;
  });
  if (ball == balls.end()) ball = balls.insert(balls.end(), {at});
  ++ball->frames;
  bool by_head = false;
  for (const Near& each : heads_and_feet) {
    const double away_px = distance_px(at, each.at);
    ball->nearest_px = std::min(ball->nearest_px, away_px);
    by_head = by_head || away_px < each.within_px;
  }
  ball->frames_by_head += by_head;
}

}  // namespace

ClubChoice::ClubChoice(const Film& film, const std::vector<const std::vector<FoundClub>*>& found)
    : found_(found) {
  within_px_ = lying_still * (film.image ? film.image->height_px : 1000);
  note_places(film);
  choose_ball(film);
}

void ClubChoice::note_places(const Film& film) {
  for (std::size_t f = 0; f < found_.size(); ++f) {
    if (found_[f] == nullptr || found_[f]->empty()) continue;
    const bool up = has_hands_up(largest_of(film.frames[f]));
    ++(up ? frames_.up : frames_.down);
    for (const FoundClub& found : *found_[f]) {
      const auto head = head_of(found);
      if (!head) continue;
      auto place = std::find_if(places_.begin(), places_.end(), [&](const Lying& each) {
        return distance_px(each.at, *head) <= within_px_;
      });
      if (place == places_.end()) place = places_.insert(places_.end(), {*head, {}});
      ++(up ? place->frames.up : place->frames.down);
    }
  }
}

bool ClubChoice::stays(ImagePoint at) const {
  constexpr std::size_t least_frames = 3;
  if (std::min(frames_.up, frames_.down) < least_frames) return false;
  return std::any_of(places_.begin(), places_.end(), [&](const Lying& each) {
    return distance_px(each.at, at) <= within_px_ && 2 * each.frames.up > frames_.up &&
           2 * each.frames.down > frames_.down;
  });
}

void ClubChoice::choose_ball(const Film& film) {
  std::vector<LyingBall> balls;
  for (std::size_t f = 0; f < found_.size(); ++f) {
    if (found_[f] == nullptr) continue;
    std::vector<Near> heads_and_feet;
    for (const Person& person : film.frames[f].people) {
      const auto head = head_of(club_of(person, f)), feet = middle_of(person, Joint::ankle);
      if (head) heads_and_feet.push_back({*head, set_down * height_of(person)});
      if (!head && feet) heads_and_feet.push_back({*feet, 0});
    }
    for (const FoundClub& found : *found_[f]) {
      if (found[Joint::ball]) note_ball(balls, found[Joint::ball]->at, within_px_, heads_and_feet);
    }
  }
  // A ball in flight is in a new place in every frame.
  std::size_t most = 0;
  for (const LyingBall& each : balls) most = std::max(most, each.frames);
  const auto better = [](const LyingBall& a, const LyingBall& b) {
    return a.frames_by_head != b.frames_by_head ? a.frames_by_head > b.frames_by_head
                                                : a.nearest_px < b.nearest_px;
  };
  const LyingBall* best = nullptr;
  for (const LyingBall& each : balls) {
    if (4 * each.frames >= most && (best == nullptr || better(each, *best))) best = &each;
  }
  if (best != nullptr) ball_ = best->at;
}

FoundClub ClubChoice::club_of(const Person& person, std::size_t frame) const {
  FoundClub out;
  const auto hands = middle_of(person, Joint::wrist);
  const double height = height_of(person);
  if (!hands || found_[frame] == nullptr) return out;
  const auto cost = [&](const FoundClub& found) {
    const double grip = nearest_px(found, grip_joints, *hands);
    if (grip < nowhere) return grip <= grip_reach * height ? grip : nowhere;
    const double other = nearest_px(found, other_joints, *hands);
    const auto head = head_of(found);
    if (other > head_reach * height || (head && stays(*head))) return nowhere;
    return other;
  };
  // A club that was found whole, or else parts that were found each on its own.
  std::vector<std::pair<double, const FoundClub*>> by_cost;
  for (const FoundClub& found : *found_[frame]) {
    if (club_points_in(found) > 0 && cost(found) < nowhere)
      by_cost.push_back({cost(found), &found});
  }
  std::stable_sort(by_cost.begin(), by_cost.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  if (by_cost.empty()) return out;
  const bool whole = club_points_in(*by_cost.front().second) > 1;
  for (const auto& [unused, found] : by_cost) {
    if (whole && found != by_cost.front().second) break;
    if (!whole && club_points_in(*found) > 1) continue;
    for (std::size_t i = 0; i < club_joint_count; ++i) {
      if (club_joint(i) != Joint::ball && !out.points[i]) out.points[i] = found->points[i];
    }
  }
  return out;
}

FoundClub ClubChoice::of(const Person& person, std::size_t frame) const {
  FoundClub out = club_of(person, frame);
  if (!ball_ || found_[frame] == nullptr) return out;
  double nearest = within_px_;
  for (const FoundClub& found : *found_[frame]) {
    const auto& ball = found[Joint::ball];
    if (!ball || distance_px(ball->at, *ball_) > nearest) continue;
    nearest = distance_px(ball->at, *ball_);
    out[Joint::ball] = ball;
  }
  return out;
}

}  // namespace rangecheck::intake
