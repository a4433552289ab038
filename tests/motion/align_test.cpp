// SPDX-License-Identifier: MIT
// Two films' positions laid side by side.
#include "motion/align.hpp"

#include <Eigen/Cholesky>
#include <random>

#include "close.hpp"
#include "said.hpp"

namespace rangecheck::motion {
namespace {

/// Seconds and standard uncertainties of positions.
struct At {
  Position position;
  double time_s, u_s = 0.01;
};

Swing swing_of(const std::vector<At>& positions) {
  Swing out;
  for (auto& each : out.positions) each.reason = as_written("not in the film");
  for (const auto& [position, time_s, u_s] : positions)
    out[position] = {
        PositionTime::Found{Duration::seconds(time_s), Duration::seconds(u_s)}, {}, {}};
  return out;
}

double time_s(const Swing& swing, Position position) {
  REQUIRE(swing[position].found);
  return swing[position].found->time.in_seconds();
}

double u_s(const Swing& swing, Position position) {
  return swing[position].found->standard_uncertainty.in_seconds();
}

const std::vector<At> one{{Position::address, 1.0, 0.05},
                          {Position::lead_arm_parallel_back, 1.6},
                          {Position::top, 1.9, 0.03},
                          {Position::impact, 2.2, 0.005},
                          {Position::finish, 2.9, 0.04}};

std::vector<At> later(std::vector<At> positions, double by_s) {
  for (auto& each : positions) each.time_s += by_s;
  return positions;
}

std::vector<At> with_noise(std::vector<At> positions, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  for (auto& each : positions) each.time_s += each.u_s * normal(random);
  return positions;
}

/// Chi-square of the times between consecutive positions by their full covariance: each time shares
/// its events with its neighbours.
double by_full_covariance(const std::vector<At>& a, const std::vector<At>& b) {
  const auto n = static_cast<Eigen::Index>(a.size());
  Eigen::VectorXd apart(n);
  Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto &x = a[static_cast<std::size_t>(i)], &y = b[static_cast<std::size_t>(i)];
    apart[i] = y.time_s - x.time_s;
    covariance(i, i) = x.u_s * x.u_s + y.u_s * y.u_s;
  }
  Eigen::MatrixXd between = Eigen::MatrixXd::Zero(n - 1, n);
  for (Eigen::Index i = 0; i + 1 < n; ++i) {
    between(i, i) = -1;
    between(i, i + 1) = 1;
  }
  const Eigen::VectorXd d = between * apart;
  return d.dot((between * covariance * between.transpose()).ldlt().solve(d));
}

TEST_CASE("the same times on two clocks can be one swing") {
  const auto said = align(swing_of(one), swing_of(later(one, 3.25)), true);
  CHECK(said.could_be_one);
  CHECK(said.one_swing);
  CHECK_CLOSE(said.chi_square, 0, 1e-12);
  CHECK(said.freedom == 4);
  CHECK_CLOSE(said.offset.in_seconds(), 3.25, 1e-12);
  CHECK(said.notes.empty());
  const auto unsaid = align(swing_of(one), swing_of(later(one, 3.25)), false);
  CHECK(unsaid.could_be_one);
  CHECK_FALSE(unsaid.one_swing);
  CHECK(time_s(unsaid.swings[1], Position::top) == 1.9 + 3.25);
  CHECK(u_s(unsaid.swings[0], Position::top) == 0.03);
}

TEST_CASE("chi-square is that of the times between positions with their full covariance") {
  std::mt19937_64 random(1);
  for (int i = 0; i < 20; ++i) {
    const auto a = with_noise(one, random), b = with_noise(later(one, 1), random);
    const double expected = by_full_covariance(a, b);
    CHECK_CLOSE(align(swing_of(a), swing_of(b), false).chi_square, expected, 1e-9 * (1 + expected));
  }
}

TEST_CASE("one swing in twenty is told from itself") {
  std::mt19937_64 random(2);
  int could = 0;
  constexpr int swings = 4000;
  for (int i = 0; i < swings; ++i) {
    const auto a = with_noise(one, random), b = with_noise(later(one, 1), random);
    could += align(swing_of(a), swing_of(b), false).could_be_one ? 1 : 0;
  }
  // 95 %, within three standard deviations of the count.
  CHECK_CLOSE(could / static_cast<double>(swings), 0.95, 0.011);
}

TEST_CASE("two takes with another tempo are two swings, whatever the manifest says") {
  auto quicker = later(one, 2);
  quicker[3].time_s -= 0.12;
  for (const bool said_same : {false, true}) {
    const auto aligned = align(swing_of(one), swing_of(quicker), said_same);
    CHECK_FALSE(aligned.could_be_one);
    CHECK_FALSE(aligned.one_swing);
    CHECK(time_s(aligned.swings[0], Position::impact) == 2.2);
    if (!said_same) CHECK(aligned.notes.empty());
    if (said_same) {
      CHECK(in_english(aligned.notes) ==
            std::vector<std::string>{
                "the manifest says that both films show the same swing, but their times between "
                "positions differ by up to 0.09 s: taken as two swings"});
    }
  }
}

TEST_CASE("two positions in common tell nothing") {
  const std::vector<At> two{{Position::top, 1.9}, {Position::impact, 2.2}};
  const auto aligned = align(swing_of(one), swing_of(two), true);
  CHECK_FALSE(aligned.could_be_one);
  CHECK_FALSE(aligned.one_swing);
  CHECK(aligned.freedom == 1);
  CHECK(
      in_english(aligned.notes) ==
      std::vector<std::string>{"the two films have 2 positions in common: too few to tell whether "
                               "they show one swing"});
  const auto none = align(swing_of(one), swing_of({}), false);
  CHECK_FALSE(none.could_be_one);
  CHECK(none.freedom == 0);
  CHECK(in_english(none.notes) ==
        std::vector<std::string>{
            "the two films have no positions in common: too few to tell whether they "
            "show one swing"});
}

TEST_CASE("the times of one swing are merged on each film's clock") {
  // By hand: u 0.01 s all over, three positions 1 s apart on the second clock, one 0.03 s late. The
  // offset is the mean, 1.01 s, and each merged time half-way.
  const std::vector<At> a{{Position::top, 2}, {Position::impact, 3}, {Position::finish, 4}};
  std::vector<At> b = later(a, 1);
  b[1].time_s += 0.03;
  const auto aligned = align(swing_of(a), swing_of(b), true);
  REQUIRE(aligned.one_swing);
  CHECK_CLOSE(aligned.chi_square, (1 + 4 + 1) * 1e-4 / 2e-4, 1e-9);
  CHECK_CLOSE(aligned.offset.in_seconds(), 1.01, 1e-12);
  CHECK_CLOSE(time_s(aligned.swings[0], Position::top), 2 - 0.005, 1e-12);
  CHECK_CLOSE(time_s(aligned.swings[0], Position::impact), 3 + 0.01, 1e-12);
  CHECK_CLOSE(time_s(aligned.swings[1], Position::impact), 4.03 - 0.01, 1e-12);
  // 1/2 of the variance, and 1/4 of the offset's, which is 2e-4 / 3.
  CHECK_CLOSE(u_s(aligned.swings[0], Position::top), std::sqrt(0.5e-4 + 2e-4 / 12), 1e-9);
}

TEST_CASE("merged times scatter as stated") {
  std::mt19937_64 random(3);
  double square = 0, count = 0;
  for (int i = 0; i < 4000; ++i) {
    const auto a = with_noise(one, random), b = with_noise(later(one, 1), random);
    const auto aligned = align(swing_of(a), swing_of(b), true);
    if (!aligned.one_swing) continue;
    for (const auto& truth : one) {
      const auto& swing = aligned.swings[0];
      if (!swing[truth.position].found) continue;
      square +=
          std::pow((time_s(swing, truth.position) - truth.time_s) / u_s(swing, truth.position), 2);
      ++count;
    }
  }
  CHECK_CLOSE(std::sqrt(square / count), 1, 0.03);
}

TEST_CASE("a position that one film shows is in both") {
  auto more = later(one, 1);
  more.push_back({Position::shaft_parallel_down, 3.1, 0.02});
  const auto aligned = align(swing_of(one), swing_of(more), true);
  REQUIRE(aligned.one_swing);
  const auto& p6 = aligned.swings[0][Position::shaft_parallel_down];
  REQUIRE(p6.found);
  CHECK_CLOSE(p6.found->time.in_seconds(), 2.1, 1e-9);
  CHECK(p6.found->standard_uncertainty.in_seconds() > 0.02);
  CHECK(p6.found->standard_uncertainty.in_seconds() < 0.022);
  CHECK(p6.reason.empty());
  CHECK_FALSE(aligned.swings[0][Position::shaft_parallel_back].found);
  CHECK(aligned.swings[0][Position::shaft_parallel_back].reason == "not in the film");
}

TEST_CASE("a position that does not fit between the others is left out") {
  auto more = later(one, 1);
  more.push_back({Position::shaft_parallel_down, 3.25, 0.02});
  const auto aligned = align(swing_of(one), swing_of(more), true);
  REQUIRE(aligned.one_swing);
  for (const auto& swing : aligned.swings) {
    double before_s = 0;
    for (const Position position : all_positions) {
      if (!swing[position].found) continue;
      CHECK(time_s(swing, position) > before_s);
      before_s = time_s(swing, position);
    }
    CHECK(swing[Position::impact].found);
    CHECK_FALSE(swing[Position::shaft_parallel_down].found);
    CHECK(swing[Position::shaft_parallel_down].reason == "the two films disagree on when it was");
  }
}

TEST_CASE("the same phase lies straight between common positions") {
  const Swing from = swing_of(one);
  const Swing to = swing_of({{Position::lead_arm_parallel_back, 5.0},
                             {Position::top, 5.6},
                             {Position::lead_arm_parallel_down, 5.8},
                             {Position::impact, 5.9}});
  const auto phase_s = [&](double at_s) {
    const auto out = same_phase(from, to, Duration::seconds(at_s));
    return out ? out->in_seconds() : -1;
  };
  CHECK(phase_s(1.59) == -1);  // address is in one film only
  CHECK_CLOSE(phase_s(1.6), 5.0, 1e-12);
  CHECK_CLOSE(phase_s(1.75), 5.3, 1e-12);
  CHECK_CLOSE(phase_s(1.9), 5.6, 1e-12);
  CHECK_CLOSE(phase_s(2.0), 5.7, 1e-12);
  CHECK_CLOSE(phase_s(2.2), 5.9, 1e-12);
  CHECK(phase_s(2.21) == -1);
  CHECK_FALSE(same_phase(from, swing_of({}), Duration::seconds(2)).has_value());
  // Back again.
  CHECK_CLOSE(same_phase(to, from, Duration::seconds(5.3))->in_seconds(), 1.75, 1e-12);
}

}  // namespace
}  // namespace rangecheck::motion
