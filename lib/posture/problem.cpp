// SPDX-License-Identifier: MIT
#include "posture/problem.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

namespace rangecheck::posture {

double Problem::cost(const Eigen::VectorXd& state) const {
  double sum = 0;
  Eigen::VectorXd residual;
  for (const auto& factor : factors_) {
    residual.resize(factor->size());
    factor->evaluate(state.data(), residual.data(), nullptr);
    sum += residual.squaredNorm();
  }
  return sum / 2;
}

Linearised Problem::nothing(Eigen::Index unknowns) {
  return {0, Eigen::VectorXd::Zero(unknowns), Eigen::MatrixXd::Zero(unknowns, unknowns)};
}

Linearised Problem::linearised(const Eigen::VectorXd& state, int first) const {
  Linearised sum = nothing(state.size() - first);
  for (const auto& factor : factors_) factor->add_to(sum, state.data(), first);
  sum.hessian.triangularView<Eigen::StrictlyUpper>() = sum.hessian.transpose();
  return sum;
}

Eigen::MatrixXd inverse(const Eigen::MatrixXd& information) {
  return information.ldlt().solve(
      Eigen::MatrixXd::Identity(information.rows(), information.cols()));
}

namespace {

constexpr int most_iterations = 60;
// Positions are metres: steps of a few micrometres and costs of a millionth decide nothing.
constexpr double step_tolerance = 1e-6, gradient_tolerance = 1e-6, cost_tolerance = 5e-8;

/// How far a step may trust that the problem is linear (Madsen, Nielsen & Tingleff 2004, Methods
/// for non-linear least squares problems, algorithm 3.16).
class Damping {
 public:
  double value() const { return value_; }
  /// After a step that brought `gained`, the part of what it should have brought.
  void accepted(double gained) {
    value_ *= std::max(1.0 / 3, 1 - std::pow(2 * gained - 1, 3));
    growth_ = 2;
  }
  void rejected() {
    value_ *= growth_;
    growth_ *= 2;
  }

 private:
  double value_ = 1e-4, growth_ = 2;
};

/// The step that (JᵀJ + damping · its diagonal) asks for.
Eigen::VectorXd damped_step(const Linearised& at, double damping) {
  constexpr double least = 1e-6;  // an unknown that nothing holds stays where it is
  Eigen::MatrixXd damped = at.hessian;
  damped.diagonal() += damping * at.hessian.diagonal().cwiseMax(least);
  return damped.llt().solve(-at.gradient);
}

}  // namespace

Solved solve(const Problem& problem, const Eigen::VectorXd& start, int held) {
  Solved out{start, 0};
  Linearised at = problem.linearised(start, held);
  out.cost = at.cost;
  Damping damping;
  for (int iteration = 1; iteration < most_iterations; ++iteration) {
    if (at.gradient.lpNorm<Eigen::Infinity>() < gradient_tolerance) break;
    const Eigen::VectorXd step = damped_step(at, damping.value());
    const auto moving = out.state.tail(step.size());
    if (step.norm() < step_tolerance * (moving.norm() + step_tolerance)) break;
    Eigen::VectorXd tried = out.state;
    tried.tail(step.size()) += step;
    const double gain = out.cost - problem.cost(tried);
    const double expected = -step.dot(at.gradient + at.hessian * step / 2);
    const bool is_better = gain / expected > 0;  // false for NaN too
    if (is_better) {
      out.state = tried;
      out.cost -= gain;
    }
    if (std::abs(gain) < cost_tolerance) break;
    if (!is_better) {
      damping.rejected();
      continue;
    }
    at = problem.linearised(out.state, held);
    damping.accepted(gain / expected);
  }
  return out;
}

}  // namespace rangecheck::posture
