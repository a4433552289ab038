// SPDX-License-Identifier: MIT
#include "posture/body.hpp"

#include <algorithm>
#include <cmath>

#include "posture/formulas.hpp"
#include "posture/priors.hpp"
#include "posture/sources.hpp"

namespace rangecheck::posture {
namespace {

using prior::Place;

std::optional<Place> find_place(LandmarkId id) {
  const bool is_trail = id.side == Side::trail;
  const LandmarkId wanted = is_trail ? mirrored(id) : id;
  const auto matches = [&](const Place& place) { return place.id == wanted; };
  auto found = [&](const auto& table) -> std::optional<Place> {
    const auto place = std::find_if(table.begin(), table.end(), matches);
    if (place == table.end()) return std::nullopt;
    Place out = *place;
    if (is_trail) out.x = -out.x;
    return out;
  };
  if (auto place = found(prior::address)) return place;
  return found(prior::club_and_spine);
}

void add_places(Problem& problem, const Unknowns& unknowns) {
  for (const LandmarkId id : unknowns.joints()) {
    const auto place = find_place(id);
    problem.add<3, 5>(source::prior,
                      runs<3, 1, 1>({unknowns.joint(id), unknowns.stature(), unknowns.turn()}),
                      NearPlace{{place->x, place->y, place->z}, {place->sx, place->sy, place->sz}});
  }
}

void add_segment(Problem& problem, const Unknowns& unknowns, const prior::Segment& segment) {
  const auto add = [&](LandmarkId from, LandmarkId to) {
    if (!unknowns.has(from) || !unknowns.has(to)) return false;
    problem.add<1, 7>(source::prior,
                      runs<3, 3, 1>({unknowns.joint(from), unknowns.joint(to), unknowns.stature()}),
                      SegmentLength{segment.length.mean, segment.length.sigma});
    return true;
  };
  if (!add(segment.from, segment.to) || segment.twin == prior::Twin::none) return;
  const LandmarkId from = mirrored(segment.from), to = mirrored(segment.to);
  if (!add(from, to) || segment.twin == prior::Twin::alike) return;
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
  const double sigma = std::sqrt(2.0) * std::hypot(prior::heel_to_toe_less_than_foot_m.sigma,
                                                   foot.standard_uncertainty.in_metres());
  for (const Side side : {Side::lead, Side::trail}) {
    problem.add<1, 6>(
        source::shoe,
        runs<3, 3>({unknowns.joint({side, Joint::heel}), unknowns.joint({side, Joint::big_toe})}),
        Distance{mean, sigma});
  }
}

}  // namespace rangecheck::posture
