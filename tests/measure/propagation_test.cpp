// SPDX-License-Identifier: MIT
#include "measure/propagation.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "close.hpp"
#include "measure/address.hpp"

namespace rangecheck {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using measure::Codomain;
using measure::propagate;

VectorXd vector(std::initializer_list<double> values) {
  VectorXd out(static_cast<Eigen::Index>(values.size()));
  std::copy(values.begin(), values.end(), out.begin());
  return out;
}

MatrixXd independent(const VectorXd& u) { return u.cwiseAbs2().asDiagonal(); }

/// Mean of f − f(mean) and standard deviation of f over normal draws around `mean` with `sigma_m`.
struct Spread {
  double shift = 0;
  double standard_deviation = 0;
};

Spread monte_carlo(const measure::Rule& rule, const std::vector<posture::Point>& mean,
                   double sigma_m, int draws) {
  std::mt19937 random(20);
  std::normal_distribution<double> normal(0, sigma_m);
  const bool wraps = rule.dimension == Dimension::angle;
  const double at_mean = *rule.measure(mean);
  double sum = 0, sum_of_squares = 0;
  auto drawn = mean;
  for (int i = 0; i < draws; ++i) {
    for (std::size_t p = 0; p < mean.size(); ++p) {
      for (int axis = 0; axis < 3; ++axis) drawn[p][axis] = mean[p][axis] + normal(random);
    }
    const double change = *rule.measure(drawn) - at_mean;
    const double shortest = wraps ? std::remainder(change, 2 * std::numbers::pi) : change;
    sum += shortest;
    sum_of_squares += shortest * shortest;
  }
  const double shift = sum / draws;
  return {shift, std::sqrt(sum_of_squares / draws - shift * shift)};
}

}  // namespace

TEST_CASE("end gauge of GUM H.1: second-order terms raise 32 nm to 34 nm") {
  // JCGM 100:2008, H.1 (inputs as quoted in the documentation of GTC; results from memory and
  // recomputed). In order: standard, difference, expansion, its difference, temperature difference,
  // mean temperature deviation with its arcsine swing of 0.5 °C.
  const auto length = [](const VectorXd& x) -> std::optional<double> {
    return x[0] + x[1] - x[0] * (x[3] * x[5] + x[2] * x[4]);
  };
  const VectorXd mean = vector({50000623, 215, 11.5e-6, 0, 0, -0.1});
  const VectorXd u =
      vector({25, std::hypot(5.8, 3.9, 6.7), 2e-6 / std::sqrt(3), 1e-6 / std::sqrt(3),
              0.05 / std::sqrt(3), std::hypot(0.2, 0.5 / std::sqrt(2))});
  const auto found = propagate(length, mean, independent(u), Codomain::line);
  REQUIRE(found);
  CHECK_CLOSE(found->value, 50000838, 0.01);
  CHECK_CLOSE(found->standard_uncertainty, 33.81, 0.02);

  // Without the two products of small quantities only the first order is left.
  const auto linear = [&mean](const VectorXd& x) -> std::optional<double> {
    return x[0] + x[1] - mean[0] * (x[3] * mean[5] + mean[2] * x[4]);
  };
  CHECK_CLOSE(propagate(linear, mean, independent(u), Codomain::line)->standard_uncertainty, 31.66,
              0.01);
}

TEST_CASE("impedance of GUM H.2: correlation counts") {
  // JCGM 100:2008, H.2, simultaneous readings of voltage, current and phase.
  const std::array<std::array<double, 5>, 3> readings = {
      {{5.007, 4.994, 5.005, 4.990, 4.999},
       {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3},
       {1.0456, 1.0438, 1.0468, 1.0428, 1.0433}}};
  VectorXd mean = VectorXd::Zero(3);
  MatrixXd covariance = MatrixXd::Zero(3, 3);
  for (int q = 0; q < 3; ++q) {
    for (const double reading : readings[static_cast<std::size_t>(q)]) mean[q] += reading / 5;
  }
  for (std::size_t i = 0; i < 5; ++i) {
    const VectorXd off = vector({readings[0][i], readings[1][i], readings[2][i]}) - mean;
    covariance += off * off.transpose() / 20;  // n (n − 1): of the mean
  }
  const auto u = [&](auto f, const MatrixXd& c) {
    return propagate(f, mean, c, Codomain::line)->standard_uncertainty;
  };
  const auto resistance = [](const VectorXd& x) -> std::optional<double> {
    return x[0] / x[1] * std::cos(x[2]);
  };
  const auto reactance = [](const VectorXd& x) -> std::optional<double> {
    return x[0] / x[1] * std::sin(x[2]);
  };
  const auto impedance = [](const VectorXd& x) -> std::optional<double> { return x[0] / x[1]; };
  CHECK_CLOSE(propagate(impedance, mean, covariance, Codomain::line)->value, 254.260, 0.001);
  CHECK_CLOSE(u(impedance, covariance), 0.2363, 0.0002);
  CHECK_CLOSE(u(resistance, covariance), 0.0711, 0.0002);
  CHECK_CLOSE(u(reactance, covariance), 0.2956, 0.0002);
  const MatrixXd uncorrelated = covariance.diagonal().asDiagonal();
  CHECK_CLOSE(u(impedance, uncorrelated), 0.2041, 0.0002);
}

TEST_CASE("sum of four, JCGM 101 9.2.2, and mass calibration, 9.3") {
  const auto sum = [](const VectorXd& x) -> std::optional<double> { return x.sum(); };
  CHECK_CLOSE(propagate(sum, VectorXd::Zero(4), MatrixXd::Identity(4, 4), Codomain::line)
                  ->standard_uncertainty,
              2.0, 1e-9);
  // 9.3: first order gives 0.0539 mg, Monte Carlo 0.0754 mg: nearly half of the variance is
  // curvature.
  const auto deviation = [](const VectorXd& x) -> std::optional<double> {
    return (x[0] + x[1]) * (1 + (x[2] - 1.2) * (1 / x[3] - 1 / x[4])) - 100000;
  };
  const VectorXd mean = vector({100000, 1.234, 1.2, 8000, 8000});
  const VectorXd u =
      vector({0.05, 0.02, 0.1 / std::sqrt(3), 1000 / std::sqrt(3), 50 / std::sqrt(3)});
  const auto found = propagate(deviation, mean, independent(u), Codomain::line);
  REQUIRE(found);
  CHECK_CLOSE(found->value, 1.234, 0.001);
  CHECK_CLOSE(found->standard_uncertainty, 0.0754, 0.0010);
}

TEST_CASE("angle at a joint in a picture: the shared vertex correlates both segments") {
  // Two segments of 150 px, 150 deg between them, 4 px on every coordinate: 3.658 deg, against
  // 3.056 deg were the segments independent. u² = s²(2/L1² + 2/L2² − 2 cos θ/(L1 L2)), own
  // derivation.
  const auto angle = [](const VectorXd& x) -> std::optional<double> {
    const Eigen::Vector2d a = x.segment<2>(0) - x.segment<2>(2);
    const Eigen::Vector2d b = x.segment<2>(4) - x.segment<2>(2);
    return std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b));
  };
  const double included = Angle::degrees(150).in_radians();
  const VectorXd mean = vector({150, 0, 0, 0, 150 * std::cos(included), 150 * std::sin(included)});
  const auto found = propagate(angle, mean, 16 * MatrixXd::Identity(6, 6), Codomain::circle);
  REQUIRE(found);
  CHECK_CLOSE(Angle::radians(found->standard_uncertainty).in_degrees(), 3.658, 0.01);
}

TEST_CASE("an angle across the cut of atan2 stays narrow") {
  const auto heading = [](const VectorXd& x) -> std::optional<double> {
    return std::atan2(x[1], x[0]);
  };
  const auto found =
      propagate(heading, vector({-1, 0}), 1e-4 * MatrixXd::Identity(2, 2), Codomain::circle);
  REQUIRE(found);
  CHECK_CLOSE(found->standard_uncertainty, 0.01, 1e-4);
}

TEST_CASE("a direction of which nothing is known is as wide as the circle, not wider") {
  const auto sum = [](const VectorXd& x) -> std::optional<double> { return x.sum(); };
  const auto found =
      propagate(sum, VectorXd::Zero(4), 4 * MatrixXd::Identity(4, 4), Codomain::circle);
  REQUIRE(found);
  CHECK_CLOSE(Angle::radians(found->standard_uncertainty).in_degrees(), 180 / std::sqrt(3.0), 1e-9);
}

TEST_CASE("an undefined value is nothing, also when only a step reaches it") {
  const auto root = [](const VectorXd& x) -> std::optional<double> {
    if (x[0] < 0) return std::nullopt;
    return std::sqrt(x[0]);
  };
  const MatrixXd wide = MatrixXd::Identity(1, 1);
  CHECK_FALSE(propagate(root, vector({-1}), wide, Codomain::line));
  CHECK_FALSE(propagate(root, vector({0.5}), wide, Codomain::line));
  CHECK(propagate(root, vector({4}), wide, Codomain::line));
}

TEST_CASE("an unsigned angle near straight: its reading high is taken off, its spread kept") {
  // Segments of 0.4 m, landmarks 1 cm each: Monte Carlo of 10^5 draws gives, for a true flexion of
  // 20, 10 and 5 deg, a standard deviation of 3.44, 3.37 and 2.96 deg and readings 0.3, 0.7 and
  // 1.4 deg high (own computation).
  const measure::Rule& rule = *measure::find_rule("lead-knee-flexion");
  struct Row {
    double flexion_deg, spread_deg, high_deg;
  };
  for (const auto& [flexion_deg, spread_deg, high_deg] :
       {Row{20, 3.44, 0.3}, Row{10, 3.37, 0.7}, Row{5, 2.96, 1.4}}) {
    CAPTURE(flexion_deg);
    const double bend = Angle::degrees(flexion_deg).in_radians();
    posture::Posture posture;
    posture.landmarks.assign(rule.needs.begin(), rule.needs.end());
    posture.mean =
        vector({0, 0.8, 0, 0, 0.4, 0, 0, 0.4 - 0.4 * std::cos(bend), -0.4 * std::sin(bend)});
    const auto found = measure::propagate(rule, posture, 1e-4 * MatrixXd::Identity(9, 9));
    REQUIRE(found);
    CHECK_CLOSE(flexion_deg - Angle::radians(found->value).in_degrees(), high_deg, 0.3);
    const double u_deg = Angle::radians(found->standard_uncertainty).in_degrees();
    CHECK(u_deg >= spread_deg);  // never too narrow
    CHECK(u_deg <= 1.3 * spread_deg);
  }
}

TEST_CASE("every rule's uncertainty is that of a Monte Carlo, 1 cm on every coordinate") {
  // JCGM 101:2008, clause 8: validating propagation by Monte Carlo. At address and at the top,
  // which stands for every later position.
  const double sigma_m = 0.01;
  int compared = 0;
  for (const auto& posture : {test::posture_at_address(sigma_m), test::posture_at_top(sigma_m)}) {
    const bool at_address = posture.address_landmarks.empty();
    for (const measure::Rule* rule : measure::catalogue()) {
      const bool here = at_address ? rule->at.has(Position::address)
                                   : rule->at.has(Position::top) || !rule->address_needs.empty();
      if (rule->is_timing() || !here) continue;
      const std::string id(rule->id);
      CAPTURE(id);
      CAPTURE(at_address);
      const auto points = test::points_for(*rule, posture);
      const auto drawn = monte_carlo(*rule, points, sigma_m, 20000);
      const auto found = measure::propagate(*rule, posture, posture.covariance);
      REQUIRE(found);
      CHECK_CLOSE(found->standard_uncertainty / drawn.standard_deviation, 1, 0.1);
      CHECK_CLOSE(*rule->measure(points) - found->value, drawn.shift,
                  0.05 * drawn.standard_deviation);
      ++compared;
    }
  }
  CHECK(compared >= 80);
}

}  // namespace rangecheck
