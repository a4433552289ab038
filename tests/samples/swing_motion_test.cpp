// SPDX-License-Identifier: MIT
// The made-up swings against what bodies can do and against the definitions of the positions.
#include "generator/swing_motion.hpp"

#include <algorithm>
#include <vector>

#include "close.hpp"
#include "generator/linkage.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

#ifdef __SANITIZE_ADDRESS__
constexpr std::uint64_t golfers = 8;  // ten times as slow there
#else
constexpr std::uint64_t golfers = 25;
#endif

SwingOptions options_of(SwingKind kind) {
  SwingOptions options;
  options.kind = kind;
  options.base.setup = kind == SwingKind::full    ? Setup::iron
                       : kind == SwingKind::pitch ? Setup::wedge
                       : kind == SwingKind::chip  ? Setup::chip
                                                  : Setup::putter;
  return options;
}

const std::vector<SwingMotion>& swings(SwingKind kind = SwingKind::full) {
  static std::map<SwingKind, std::vector<SwingMotion>> all;
  auto& motions = all[kind];
  for (std::uint64_t seed = 1; motions.size() < golfers; ++seed) {
    motions.push_back(draw_motion(seed, options_of(kind)));
  }
  return motions;
}

constexpr SwingKind kinds[] = {SwingKind::full, SwingKind::pitch, SwingKind::chip, SwingKind::putt};

Vector3d velocity(const SwingMotion& motion, double time_s, LandmarkId id) {
  constexpr double half_s = 1e-5;
  return (*motion.points(time_s + half_s)[id] - *motion.points(time_s - half_s)[id]) / (2 * half_s);
}

double hands_mps(const SwingMotion& motion, double time_s) {
  return velocity(motion, time_s, centre(Joint::hands_mid)).norm();
}

/// Above the horizontal, from grip to head.
double shaft_deg(const Points& points) {
  const Vector3d shaft = *points[centre(Joint::hosel)] - *points[centre(Joint::grip_end)];
  return degrees(std::asin(shaft.y() / shaft.norm()));
}

double arm_m(const Points& points, Side side) {
  return points[{side, Joint::wrist}]->y() - points[{side, Joint::shoulder}]->y();
}

/// Middle of two points, or one.
Vector3d at(const Points& points, LandmarkId id) { return *points[id]; }

std::vector<std::pair<LandmarkId, LandmarkId>> bones() {
  std::vector<std::pair<LandmarkId, LandmarkId>> bones{
      {lead(Joint::hip), trail(Joint::hip)},
      {lead(Joint::shoulder), trail(Joint::shoulder)},
      {centre(Joint::pelvis), centre(Joint::neck)},
      {centre(Joint::grip_end), centre(Joint::hosel)},
      {centre(Joint::hosel), centre(Joint::club_toe)},
      {lead(Joint::ear), trail(Joint::ear)},
      {lead(Joint::ear), centre(Joint::nose)},
      {lead(Joint::wrist), centre(Joint::grip_end)},
      {trail(Joint::wrist), centre(Joint::grip_end)}};
  for (const auto side : {lead, trail}) {
    for (const auto& [from, to] : {std::pair{Joint::hip, Joint::knee},
                                   {Joint::knee, Joint::ankle},
                                   {Joint::ankle, Joint::heel},
                                   {Joint::heel, Joint::big_toe},
                                   {Joint::heel, Joint::small_toe},
                                   {Joint::shoulder, Joint::elbow},
                                   {Joint::elbow, Joint::wrist},
                                   {Joint::wrist, Joint::index_1},
                                   {Joint::wrist, Joint::little_1},
                                   {Joint::wrist, Joint::thumb_2}}) {
      bones.push_back({side(from), side(to)});
    }
  }
  return bones;
}

TEST_CASE("a swing begins exactly at the golfer's address") {
  for (const auto kind : kinds) {
    for (const auto& motion : swings(kind)) {
      const Points points = motion.points(0);
      for (std::size_t i = 0; i < landmark_count; ++i) {
        const auto id = landmark_at(i);
        const auto& expected = motion.figure().golfer().points[id];
        REQUIRE(points.has(id) == expected.has_value());
        if (expected) REQUIRE((*points[id] - *expected).norm() < 1e-12);
      }
    }
  }
}

TEST_CASE("bones and club keep their length") {
  for (const auto kind : kinds) {
    for (const auto& motion : swings(kind)) {
      const Points address = motion.points(0);
      double worst = 0;
      for (double time_s = 0; time_s < motion.timing().end_s(); time_s += 0.004) {
        const Points points = motion.points(time_s);
        for (const auto& [from, to] : bones()) {
          const double length = (at(points, to) - at(points, from)).norm();
          const double expected = (at(address, to) - at(address, from)).norm();
          worst = std::max(worst, std::abs(length / expected - 1));
        }
      }
      CHECK(worst < 1e-9);
    }
  }
}

TEST_CASE("joints bend as joints bend") {
  for (const auto& motion : swings()) {
    for (double time_s = 0; time_s < motion.timing().end_s(); time_s += 0.01) {
      const Points points = motion.points(time_s);
      for (const auto side : {Side::lead, Side::trail}) {
        const double knee = bend_deg(points, side, Joint::hip, Joint::knee, Joint::ankle);
        const double elbow = bend_deg(points, side, Joint::shoulder, Joint::elbow, Joint::wrist);
        REQUIRE(knee > 1);
        REQUIRE(knee < 75);
        REQUIRE(elbow > 0.3);
        REQUIRE(elbow < 135);
        // Knees bend toward the toes.
        const Vector3d& hip = *points[{side, Joint::hip}];
        const Vector3d leg = *points[{side, Joint::ankle}] - hip;
        const Vector3d foot = *points[{side, Joint::big_toe}] - *points[{side, Joint::heel}];
        REQUIRE(square_to(leg, *points[{side, Joint::knee}] - hip).dot(foot) > 0);
      }
    }
  }
}

TEST_CASE("positions are where their definitions say") {
  for (const auto kind : kinds) {
    for (const auto& motion : swings(kind)) {
      for (const auto top : {TopOf::club, TopOf::hands}) {
        const auto events = motion.events(top);
        const auto then = [&](Position position) { return motion.points(*events[position]); };
        CHECK(*events[Position::address] == 0);
        for (const auto position : {Position::shaft_parallel_back, Position::shaft_parallel_down,
                                    Position::shaft_parallel_through}) {
          if (events.has(position)) CHECK_CLOSE(shaft_deg(then(position)), 0, 0.01);
        }
        for (const auto position :
             {Position::lead_arm_parallel_back, Position::lead_arm_parallel_down}) {
          if (events.has(position)) CHECK_CLOSE(arm_m(then(position), Side::lead), 0, 1e-6);
        }
        if (events.has(Position::trail_arm_parallel_through)) {
          const Points points = then(Position::trail_arm_parallel_through);
          CHECK_CLOSE(arm_m(points, Side::trail), 0, 1e-6);
        }
        CHECK_CLOSE(hands_mps(motion, *events[Position::finish]), 0.2, 1e-4);
      }
      // The club head comes back to the ball as it lay at address.
      const Points impact = motion.points(*motion.events(TopOf::club)[Position::impact]);
      for (const auto joint : {Joint::hosel, Joint::club_toe}) {
        const Vector3d off =
            at(impact, centre(joint)) - *motion.figure().golfer().points[centre(joint)];
        CHECK(off.norm() < (joint == Joint::hosel ? 0.0003 : 0.02));
      }
    }
  }
}

TEST_CASE("positions are the first or last of their kind, in order") {
  for (const auto& motion : swings()) {
    const auto events = motion.events(TopOf::club);
    double before_s = -1;
    for (const auto position : all_positions) {
      REQUIRE(events.has(position));
      REQUIRE(*events[position] > before_s);
      before_s = *events[position];
    }
    const auto shaft = [&](double time_s) { return shaft_deg(motion.points(time_s)); };
    for (double time_s = 0; time_s < *events[Position::shaft_parallel_back] - 1e-6;
         time_s += 0.01) {
      REQUIRE(shaft(time_s) < 0);
    }
    for (double time_s = *events[Position::shaft_parallel_down] + 1e-6;
         time_s < *events[Position::shaft_parallel_through] - 1e-6; time_s += 0.002) {
      REQUIRE(shaft(time_s) < 0);
    }
    const double top_s = *events[Position::top];
    const auto back = [&](double time_s) { return motion.dofs(time_s)[Dof::club_back]; };
    CHECK(back(top_s) > back(top_s - 0.004));
    CHECK(back(top_s) > back(top_s + 0.004));
    const double hands_s = *motion.events(TopOf::hands)[Position::top];
    CHECK(hands_mps(motion, hands_s) < hands_mps(motion, hands_s - 0.004));
    CHECK(hands_mps(motion, hands_s) < hands_mps(motion, hands_s + 0.004));
  }
}

TEST_CASE("short swings have the positions that they reach") {
  for (const auto& motion : swings(SwingKind::putt)) {
    const auto events = motion.events(TopOf::club);
    for (const auto position : all_positions) {
      const bool has = position == Position::address || position == Position::top ||
                       position == Position::impact || position == Position::finish;
      CHECK(events.has(position) == has);
    }
  }
  for (const auto& motion : swings(SwingKind::chip)) {
    const auto events = motion.events(TopOf::club);
    CHECK_FALSE(events.has(Position::lead_arm_parallel_back));
    CHECK(events.has(Position::shaft_parallel_back) == events.has(Position::shaft_parallel_down));
  }
}

TEST_CASE("nothing jumps") {
  // Accelerations of quarter milliseconds: they change little from one to the next, and stay
  // within those of a club head at 45 m/s on a circle of a metre, twice over.
  constexpr double step_s = 0.00025, most_mps2 = 4000;
  for (std::size_t i = 0; i < 5; ++i) {
    const SwingMotion& motion = swings()[i];
    std::vector<Points> last(3);
    LandmarkMap<Vector3d> before;
    for (double time_s = -3 * step_s; time_s < motion.timing().end_s() + 0.01; time_s += step_s) {
      std::rotate(last.begin(), last.begin() + 1, last.end());
      last[2] = motion.points(time_s);
      for (std::size_t k = 0; time_s > 0 && k < landmark_count; ++k) {
        const auto id = landmark_at(k);
        if (!last[2][id]) continue;
        const Vector3d now = (*last[2][id] - 2 * *last[1][id] + *last[0][id]) / (step_s * step_s);
        REQUIRE(now.norm() < most_mps2);
        if (before[id]) REQUIRE((now - *before[id]).norm() < 0.04 * most_mps2);
        before[id] = now;
      }
    }
  }
}

TEST_CASE("feet stand where feet stand") {
  for (const auto& motion : swings()) {
    const Points address = motion.points(0), finish = motion.points(motion.timing().end_s());
    for (double time_s = 0; time_s < motion.timing().end_s(); time_s += 0.01) {
      const Points points = motion.points(time_s);
      for (const auto side : {lead, trail}) {
        REQUIRE((*points[side(Joint::big_toe)] - *address[side(Joint::big_toe)]).norm() < 1e-12);
        REQUIRE(points[side(Joint::heel)]->y() > 0);
      }
      REQUIRE(points[lead(Joint::heel)]->y() < address[lead(Joint::heel)]->y() + 0.08);
      if (time_s > motion.timing().impact_s()) {
        REQUIRE((*points[lead(Joint::heel)] - *address[lead(Joint::heel)]).norm() < 1e-12);
      }
      if (time_s < motion.timing().at(1.4)) {
        REQUIRE((*points[trail(Joint::heel)] - *address[trail(Joint::heel)]).norm() < 1e-12);
      }
    }
    CHECK(finish[trail(Joint::heel)]->y() > 0.15);
  }
}

TEST_CASE("the head is nearly still until the ball is hit") {
  for (const auto& motion : swings()) {
    const auto middle = [&](double time_s) -> Vector3d {
      const Points points = motion.points(time_s);
      return (*points[lead(Joint::ear)] + *points[trail(Joint::ear)]) / 2;
    };
    for (double time_s = 0; time_s < motion.timing().impact_s(); time_s += 0.02) {
      REQUIRE((middle(time_s) - middle(0)).norm() < 0.12);
    }
  }
}

TEST_CASE("hands and club are as fast as people's") {
  // Ranges of common practice, no source: hands 6 to 9 m/s near impact, club heads 25 to 45.
  double sum_mps = 0;
  for (const auto& motion : swings()) {
    const double impact_s = motion.timing().impact_s();
    double hands = 0, head = 0;
    for (double time_s = impact_s - 0.08; time_s < impact_s + 0.05; time_s += 0.002) {
      hands = std::max(hands, hands_mps(motion, time_s));
      head = std::max(head, velocity(motion, time_s, centre(Joint::club_toe)).norm());
    }
    CHECK(hands > 5);
    CHECK(hands < 11);
    CHECK(head > 22);
    CHECK(head < 50);
    sum_mps += hands;
  }
  CHECK(sum_mps / golfers > 6);
  CHECK(sum_mps / golfers < 9);
}

TEST_CASE("tempo is that of the published swings") {
  // Grober & Cholewicki 2006, arXiv physics/0611291: most swings take about 24 frames back and 8
  // down at 30 Hz, 0.80 s and 0.27 s, ratio about 3; they quote 21/7 to 30/10.
  double back_s = 0, down_s = 0;
  for (const auto& motion : swings()) {
    const auto events = motion.events(TopOf::club);
    back_s += *events[Position::top] / golfers;
    down_s += (*events[Position::impact] - *events[Position::top]) / golfers;
  }
  CHECK_CLOSE(back_s, 0.80, 0.12);
  CHECK_CLOSE(down_s, 8 / 30.0, 0.04);
  CHECK_CLOSE(back_s / down_s, 3, 0.5);
}

TEST_CASE("pelvis, chest and club are fastest one after the other, mostly") {
  int in_order = 0;
  for (const auto& motion : swings()) {
    const auto fastest_s = [&](Dof dof, double sign) {
      double best_s = 0, best = 0;
      for (double time_s = motion.timing().at(1); time_s < motion.timing().at(2.5);
           time_s += 0.001) {
        const double speed =
            sign * (motion.dofs(time_s + 0.001)[dof] - motion.dofs(time_s - 0.001)[dof]);
        if (speed > best) {
          best = speed;
          best_s = time_s;
        }
      }
      return best_s;
    };
    const double pelvis_s = fastest_s(Dof::pelvis_turn, 1), chest_s = fastest_s(Dof::chest_turn, 1);
    in_order += pelvis_s < chest_s && chest_s < fastest_s(Dof::club_back, -1);
  }
  MESSAGE("in order: ", in_order, " of ", golfers);
  CHECK(in_order >= int(golfers) / 3);
  CHECK(in_order < int(golfers));
}

}  // namespace
}  // namespace rangecheck::samples
