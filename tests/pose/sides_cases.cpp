// SPDX-License-Identifier: MIT
#include "pose/sides_cases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "drawn_film.hpp"
#include "pose/side_pairs.hpp"
#include "said.hpp"

namespace rangecheck::test {
namespace {

using samples::Part;
using samples::Random;
using samples::Skeleton;
using samples::View;
using samples::When;

bool is_hand(Joint joint) { return joint == Joint::wrist || joint >= Joint::thumb_1; }

/// Over the golfer's height in the picture: more is no error of an estimator. Hands on one grip lie
/// that near each other.
double apart(Joint joint) { return is_hand(joint) ? 0.08 : 0.05; }

struct Clean {
  std::vector<samples::DetectedFrame> frames;
  samples::Moments moments;
  samples::Camera camera;
  double height_px = 0;                    ///< of the golfer upright
  std::vector<samples::Landmarks> wild{};  ///< of each frame: points far from what they are of
};

/// Of the golfer upright where he stands.
double height_px(const samples::Camera& camera, const samples::Points& points, double stature_m) {
  const Eigen::Vector3d middle = (*points[lead(Joint::hip)] + *points[trail(Joint::hip)]) / 2;
  return camera.focal_px * stature_m / camera.seen(middle).z();
}

/// Points that the estimator itself has put elsewhere are neither lead's nor trail's.
void mark_wild(Clean& film, std::size_t frame, const samples::Points& points) {
  constexpr double far = 0.07;
  film.wild.resize(film.frames.size());
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const auto& found = film.frames[frame].image[id];
    if (!found || !points[id]) continue;
    const double off_px = (found->at_px - film.camera.project(*points[id])).norm();
    if (off_px > far * film.height_px) film.wild[frame].set(i);
  }
}

std::size_t frame_at(const samples::FilmedSwing& film, double time_s) {
  const auto later = std::upper_bound(film.time_s.begin(), film.time_s.end(), time_s);
  return std::min<std::size_t>(static_cast<std::size_t>(later - film.time_s.begin()),
                               film.time_s.size() - 1);
}

Clean draw_swing(const SidesCase& each, Random& random) {
  samples::SwingOptions options;
  options.base.views = {each.view};
  options.base.detector.skeleton = each.skeleton;
  options.base.family = random.chance(0.25) ? samples::Family::preset : samples::Family::neutral;
  options.base.age = random.chance(0.15) ? samples::Age::junior : samples::Age::adult;
  constexpr double rates[] = {30, 60, 120, 240};
  options.rate_hz = rates[static_cast<std::size_t>(random.uniform(0, 4))];
  options.kind = random.chance(0.2) ? samples::SwingKind::pitch : samples::SwingKind::full;
  options.waggle = random.chance(0.3);
  options.practice_swing = random.chance(0.15);
  options.dropped_chance = random.chance(0.2) ? 0.03 : 0;
  auto drawn = samples::draw_swing(each.seed, options);
  auto& film = drawn.films[0];
  Clean out{std::move(film.frames),
            {},
            film.camera,
            height_px(film.camera, film.truth[0], drawn.golfer.body.stature_m)};
  if (film.event_s[Position::top]) out.moments.top = frame_at(film, *film.event_s[Position::top]);
  if (film.event_s[Position::trail_arm_parallel_through])
    out.moments.finish = frame_at(film, *film.event_s[Position::trail_arm_parallel_through]);
  for (std::size_t f = 0; f < out.frames.size(); ++f) mark_wild(out, f, film.truth[f]);
  return out;
}

Clean draw_address(const SidesCase& each, Random& random) {
  samples::Options options;
  options.views = {each.view};
  options.detector.skeleton = each.skeleton;
  options.detector.frames = static_cast<std::size_t>(random.uniform(6, 60));
  options.family = random.chance(0.25) ? samples::Family::preset : samples::Family::neutral;
  options.age = random.chance(0.15) ? samples::Age::junior : samples::Age::adult;
  constexpr samples::Setup setups[] = {samples::Setup::iron, samples::Setup::driver,
                                       samples::Setup::wedge, samples::Setup::chip,
                                       samples::Setup::putter};
  options.setup = setups[static_cast<std::size_t>(random.uniform(0, 5))];
  auto drawn = samples::draw(each.seed, options);
  auto& film = drawn.films[0];
  Clean out{std::move(film.frames),
            {},
            film.camera,
            height_px(film.camera, film.points, drawn.golfer.body.stature_m)};
  for (std::size_t f = 0; f < out.frames.size(); ++f) mark_wild(out, f, film.points);
  return out;
}

using Place = std::function<std::optional<Eigen::Vector2d>(LandmarkId)>;

/// From one place of a point to another; of a hand the mean over its points, because single ones
/// stray by as much as two hands are apart. Nothing where no point has both.
std::optional<double> distance_px(LandmarkId of, const Place& from, const Place& to) {
  Eigen::Vector2d sum = Eigen::Vector2d::Zero();
  int points = 0;
  for (std::size_t i = central_joint_count; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const bool same_hand = id.side == of.side && is_hand(id.joint) && is_hand(of.joint);
    if (i != index_of(of) && !same_hand) continue;
    const auto a = from(id), b = to(id);
    if (!a || !b) continue;
    sum += *b - *a;
    ++points;
  }
  if (points == 0) return std::nullopt;
  return (sum / points).norm();
}

/// Hands of which a point is wild or lacks the other are of no one place.
samples::Landmarks compared(const samples::DetectedFrame& truth, const samples::DetectedFrame& file,
                            const samples::Landmarks& wild) {
  samples::Landmarks out;
  bool hands = true;
  for (std::size_t i = central_joint_count; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    out[i] = truth.image[id] && !wild[i] && !wild[index_of(mirrored(id))];
    const bool both = file.image.has(id) && file.image.has(mirrored(id));
    if (is_hand(id.joint) && truth.image[id]) hands = hands && out[i] && both;
  }
  for (std::size_t i = central_joint_count; i < landmark_count; ++i)
    if (is_hand(landmark_at(i).joint)) out[i] = out[i] && hands;
  return out;
}

/// `truth` has every point, also those that the file has lost.
void compare(const samples::DetectedFrame& truth, const samples::DetectedFrame& file,
             const samples::Landmarks& exchanged, const samples::Landmarks& wild,
             const pose::TrackFrame& track, double height_px, SidesOutcome& out) {
  const auto counts = compared(truth, file, wild);
  const Place right = [&](LandmarkId id) -> std::optional<Eigen::Vector2d> {
    if (!truth.image[id]) return std::nullopt;
    return truth.image[id]->at_px;
  };
  const Place of_other = [&](LandmarkId id) { return right(mirrored(id)); };
  const Place given = [&](LandmarkId id) -> std::optional<Eigen::Vector2d> {
    if (!track.person || !track.person->image[id]) return std::nullopt;
    const auto& at = track.person->image[id]->at;
    return Eigen::Vector2d(at.x_px, at.y_px);
  };
  for (std::size_t i = central_joint_count; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    if (!counts[i]) continue;
    const bool found = given(id).has_value();
    const double off = found ? *distance_px(id, right, given) / height_px : 0;
    if (off > apart(id.joint)) {
      ++out.wrong;
      out.where.emplace_back(track.number, id);
    }
    if (!exchanged[i]) out.most_moved = std::max(out.most_moved, off);
    const bool in_file = file.image[exchanged[i] ? mirrored(id) : id].has_value();
    const auto between = distance_px(id, right, of_other);
    if (!in_file || !between || *between < apart(id.joint) * height_px) continue;
    if (exchanged[i]) {
      ++out.exchanged;
      out.put_right += found && off <= apart(id.joint);
      out.left_out += !found;
    } else {
      ++out.right;
      out.right_lost += !found;
    }
  }
}

}  // namespace

std::string SidesCase::name() const {
  constexpr std::string_view sets[] = {"all", "17", "25", "33"};
  return fmt::format("{} {} {}{}{} seed {}", samples::name_of(view),
                     sets[static_cast<std::size_t>(skeleton)], swing ? "swing" : "address",
                     part ? fmt::format(" {}", samples::name_of(*part)) : "",
                     part ? fmt::format(" {}", samples::name_of(when)) : "", seed);
}

bool SidesOutcome::flagged() const {
  if (!refused.empty()) return true;
  const auto named = [&](const std::string& note, const LandmarkId& id) {
    const auto pair = pose::only(pose::pair_of(id.joint));
    return note.find("taken as they came") != std::string::npos &&
           (note.find("front or back") != std::string::npos ||
            note.find("whole body") != std::string::npos ||
            note.find(in_english(pose::names_of(pair).front())) != std::string::npos);
  };
  return !where.empty() && std::all_of(where.begin(), where.end(), [&](const auto& each) {
    return std::any_of(notes.begin(), notes.end(),
                       [&](const auto& note) { return named(note, each.second); });
  });
}

SidesOutcome outcome_of(const SidesCase& each) {
  Random random = Random::for_part(each.seed, 77);
  Clean clean = each.swing ? draw_swing(each, random) : draw_address(each, random);
  const auto truth = clean.frames;
  if (random.chance(0.3)) samples::lose_points(random, clean.frames, 0.03);
  samples::Exchanged film{clean.frames, std::vector<samples::Landmarks>(clean.frames.size())};
  if (each.part)
    film = samples::exchange(random, clean.frames, *each.part, each.when, clean.moments);
  intake::FilmedView view;
  view.view = view_of(each.view);
  view.film.image =
      intake::ImageSize{double(clean.camera.width_px), double(clean.camera.height_px)};
  for (const auto& frame : film.frames)
    view.film.frames.push_back({view.film.frames.size(), std::nullopt, {person_of(frame)}});
  const auto track = pose::follow_golfer(view);
  SidesOutcome out;
  if (!track) {
    out.refused = to_string(track.error());
    return out;
  }
  for (const auto& note : track->notes) out.notes.push_back(in_english(note));
  for (std::size_t f = 0; f < clean.frames.size(); ++f) {
    compare(truth[f], film.frames[f], film.exchanged[f], clean.wild[f], track->frames[f],
            clean.height_px, out);
  }
  return out;
}

std::vector<SidesCase> sides_cases(std::size_t count, std::uint64_t first_seed) {
  constexpr Skeleton sets[] = {Skeleton::coco_17, Skeleton::points_25, Skeleton::points_33};
  std::vector<SidesCase> out;
  for (std::size_t i = 0; i < count; ++i) {
    SidesCase each;
    each.seed = first_seed + i;
    Random random = Random::for_part(each.seed, 78);
    const auto pick = [&](std::size_t of) {
      return static_cast<std::size_t>(random.uniform(0, double(of)));
    };
    each.view = pick(2) == 0 ? View::face_on : View::down_the_line;
    each.skeleton = sets[pick(3)];
    each.swing = pick(4) != 0;
    const std::size_t part = pick(std::size(samples::all_parts) + 1);
    if (part > 0) each.part = samples::all_parts[part - 1];
    // Address films have no top and no finish.
    each.when = samples::all_times[pick(each.swing ? std::size(samples::all_times) : 4)];
    out.push_back(each);
  }
  return out;
}

}  // namespace rangecheck::test
