// SPDX-License-Identifier: MIT
#include "posture/body.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "posture/formulas.hpp"
#include "posture/priors.hpp"
#include "posture/sources.hpp"

namespace rangecheck::posture {
namespace {

using prior::Place;

std::optional<Place> find_place(LandmarkId id) {
  const bool is_trail = id.side == Side::trail;
  const LandmarkId wanted = is_trail ? mirrored(id) : id;
  const auto place = std::find_if(prior::address.begin(), prior::address.end(),
                                  [&](const Place& each) { return each.id == wanted; });
  if (place == prior::address.end()) return std::nullopt;
  Place out = *place;
  if (is_trail) out.x = -out.x;
  return out;
}

/// The parent's landmarks: its own side's, or both of a central joint.
std::vector<LandmarkId> parents_of(LandmarkId id, const Place& place) {
  if (!place.parent) return {};
  if (!is_paired(*place.parent)) return {centre(*place.parent)};
  if (id.side != Side::centre) return {{id.side, *place.parent}};
  return {lead(*place.parent), trail(*place.parent)};
}

void add_places(Problem& problem, const Unknowns& unknowns) {
  for (const LandmarkId id : unknowns.joints()) {
    const Place place = *find_place(id);
    const Eigen::Vector3d at(place.x, place.y, place.z), sigma(place.sx, place.sy, place.sz);
    bool tied = false;
    for (const LandmarkId parent : parents_of(id, place)) {
      if (!unknowns.has(parent)) continue;
      const Point from = *address_place(parent, 1);
      problem.add<3, 8>(source::prior,
                        runs<3, 3, 1, 1>({unknowns.joint(id), unknowns.joint(parent),
                                          unknowns.stature(), unknowns.turn()}),
                        NearParent{{at - from, sigma}});
      tied = true;
    }
    if (tied) continue;
    problem.add<3, 5>(source::prior,
                      runs<3, 1, 1>({unknowns.joint(id), unknowns.stature(), unknowns.turn()}),
                      NearPlace{at, sigma});
  }
}

void add_segment(Problem& problem, const Unknowns& unknowns, const prior::Segment& segment) {
  // Two equal bones are one length told twice: each then carries half of its weight.
  const bool equal = segment.twin == prior::Twin::equal;
  const double sigma = segment.length.sigma * (equal ? std::numbers::sqrt2 : 1.0);
  const auto add = [&](LandmarkId from, LandmarkId to) {
    if (!unknowns.has(from) || !unknowns.has(to)) return false;
    problem.add<1, 7>(source::prior,
                      runs<3, 3, 1>({unknowns.joint(from), unknowns.joint(to), unknowns.stature()}),
                      SegmentLength{segment.length.mean, sigma});
    return true;
  };
  if (!add(segment.from, segment.to) || segment.twin == prior::Twin::none) return;
  const LandmarkId from = mirrored(segment.from), to = mirrored(segment.to);
  if (!add(from, to) || !equal) return;
  problem.add<1, 12>(source::prior,
                     runs<3, 3, 3, 3>({unknowns.joint(segment.from), unknowns.joint(segment.to),
                                       unknowns.joint(from), unknowns.joint(to)}),
                     EqualLength{prior::side_difference_sigma_m});
}

void add_foot_of(Problem& problem, const Unknowns& unknowns, Side side) {
  const int heel = unknowns.joint({side, Joint::heel});
  const int toe = unknowns.joint({side, Joint::big_toe});
  const int ankle = unknowns.joint({side, Joint::ankle});
  problem.add<1, 1>(source::prior, std::array{heel + 1},
                    Near{prior::heel_height_m.mean, prior::heel_height_m.sigma});
  problem.add<1, 1>(source::prior, std::array{toe + 1},
                    Near{prior::toe_height_m.mean, prior::toe_height_m.sigma});
  problem.add<3, 10>(source::prior, runs<3, 3, 3, 1>({heel, toe, ankle, unknowns.stature()}),
                     AnkleOnFoot{prior::ankle_along_foot.mean, prior::ankle_along_foot.sigma,
                                 prior::ankle_beside_foot_sigma_m, prior::ankle_height.mean,
                                 prior::ankle_height.sigma});
  if (!unknowns.has({side, Joint::small_toe})) return;
  problem.add<2, 9>(
      source::prior, runs<3, 3, 3>({heel, toe, unknowns.joint({side, Joint::small_toe})}),
      SmallToeOnFoot{prior::small_toe_along_foot.mean, prior::small_toe_along_foot.sigma,
                     prior::small_toe_outward.mean, prior::small_toe_outward.sigma,
                     side == Side::lead ? 1.0 : -1.0});
}

void add_ankle_to_shoulder(Problem& problem, const Unknowns& unknowns) {
  const auto at = [&](LandmarkId id) { return unknowns.joint(id); };
  problem.add<1, 25>(
      source::prior,
      runs<3, 3, 3, 3, 3, 3, 3, 3, 1>(
          {at(lead(Joint::ankle)), at(lead(Joint::knee)), at(lead(Joint::hip)),
           at(lead(Joint::shoulder)), at(trail(Joint::ankle)), at(trail(Joint::knee)),
           at(trail(Joint::hip)), at(trail(Joint::shoulder)), unknowns.stature()}),
      AnkleToShoulder{prior::ankle_to_shoulder.mean, prior::ankle_to_shoulder.sigma});
}

void add_bends(Problem& problem, const Unknowns& unknowns, Side side) {
  const auto run = [&](Joint a, Joint b, Joint c) {
    return runs<3, 3, 3>(
        {unknowns.joint({side, a}), unknowns.joint({side, b}), unknowns.joint({side, c})});
  };
  problem.add<1, 9>(source::prior, run(Joint::hip, Joint::knee, Joint::ankle),
                    BendsOneWay{+1, prior::wrong_bend_sigma_m});
  problem.add<1, 9>(source::prior, run(Joint::shoulder, Joint::elbow, Joint::wrist),
                    BendsOneWay{-1, prior::wrong_bend_sigma_m});
}

}  // namespace

std::vector<LandmarkId> body_joints() {
  std::vector<LandmarkId> out{centre(Joint::nose)};
  for (const Joint joint : {Joint::eye, Joint::ear, Joint::shoulder, Joint::elbow, Joint::wrist,
                            Joint::hip, Joint::knee, Joint::ankle, Joint::heel, Joint::big_toe}) {
    out.push_back(lead(joint));
    out.push_back(trail(joint));
  }
  return out;
}

std::optional<Point> address_place(LandmarkId id, double stature_m) {
  const auto place = find_place(id);
  if (!place) return std::nullopt;
  return Point(place->x, place->y, place->z) * stature_m;
}

void add_body(Problem& problem, const Unknowns& unknowns) {
  problem.add<1, 1>(source::prior, std::array{unknowns.stature()},
                    Near{prior::stature_m.mean, prior::stature_m.sigma});
  problem.add<1, 1>(source::prior, std::array{unknowns.turn()}, Near{0, prior::turn_sigma_rad});
  add_places(problem, unknowns);
  for (const auto& segment : prior::segments) add_segment(problem, unknowns, segment);
  add_ankle_to_shoulder(problem, unknowns);
  for (const Side side : {Side::lead, Side::trail}) {
    add_foot_of(problem, unknowns, side);
    add_bends(problem, unknowns, side);
  }
  problem.add<1, 6>(
      source::prior,
      runs<3, 3>({unknowns.joint(lead(Joint::wrist)), unknowns.joint(trail(Joint::wrist))}),
      Distance{prior::wrist_to_wrist_m.mean, prior::wrist_to_wrist_m.sigma});
  problem.add<2, 6>(
      source::prior,
      runs<3, 3>({unknowns.joint(lead(Joint::heel)), unknowns.joint(trail(Joint::heel))}),
      HeelsAtOrigin{});
  if (unknowns.has(centre(Joint::ball))) {
    problem.add<1, 1>(source::prior, std::array{unknowns.joint(centre(Joint::ball)) + 1},
                      Near{prior::ball_radius_m, prior::ball_height_sigma_m});
  }
}

void add_stature(Problem& problem, const Unknowns& unknowns, Length stature) {
  problem.add<1, 1>(source::stature, std::array{unknowns.stature()},
                    Near{stature.in_metres(), prior::stated_stature_sigma_m});
}

void add_foot(Problem& problem, const Unknowns& unknowns, const intake::FootLength& foot) {
  const double mean = foot.value.in_metres() - prior::heel_to_toe_less_than_foot_m.mean;
  // The size is one fact about two feet: each carries half of its weight.
  const double sigma = std::numbers::sqrt2 * std::hypot(prior::heel_to_toe_less_than_foot_m.sigma,
                                                        foot.standard_uncertainty.in_metres());
  for (const Side side : {Side::lead, Side::trail}) {
    problem.add<1, 6>(
        source::shoe,
        runs<3, 3>({unknowns.joint({side, Joint::heel}), unknowns.joint({side, Joint::big_toe})}),
        Distance{mean, sigma});
  }
}

}  // namespace rangecheck::posture
