// SPDX-License-Identifier: MIT
#include "measure/propagation.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace rangecheck::measure {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Columns one standard deviation long along the principal axes, so that their products sum to the
/// covariance. Taken from the correlation matrix: inputs of very different size keep their digits.
MatrixXd principal_axes(const MatrixXd& covariance) {
  const VectorXd sigma = covariance.diagonal().cwiseMax(0).cwiseSqrt();
  const VectorXd per_sigma = sigma.unaryExpr([](double s) { return s > 0 ? 1 / s : 0.0; });
  const MatrixXd correlation = per_sigma.asDiagonal() * covariance * per_sigma.asDiagonal();
  const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(correlation);
  const VectorXd length = eigen.eigenvalues().cwiseMax(0).cwiseSqrt();
  return sigma.asDiagonal() * eigen.eigenvectors() * length.asDiagonal();
}

/// f as a difference from f(mean), over coordinates counted in standard deviations.
class Change {
 public:
  Change(const std::function<std::optional<double>(const VectorXd&)>& f, const VectorXd& mean,
         double at_mean, bool wraps)
      : f_(f), mean_(mean), at_mean_(at_mean), wraps_(wraps) {}

  /// NaN where f is undefined, which then carries into the result and is caught there.
  double operator()(const VectorXd& step) const {
    const auto value = f_(mean_ + step);
    if (!value) return std::nan("");
    const double change = *value - at_mean_;
    return wraps_ ? std::remainder(change, 2 * std::numbers::pi) : change;
  }

 private:
  const std::function<std::optional<double>(const VectorXd&)>& f_;
  const VectorXd& mean_;
  double at_mean_;
  bool wraps_;
};

/// `axes` turned so that the mixed second differences of f along them vanish: then the sum over
/// single axes is the whole second-order term, with no cross terms left out.
MatrixXd uncoupled(const Change& change, const MatrixXd& axes) {
  const Index n = axes.cols();
  VectorXd forward(n);
  MatrixXd curvature(n, n);
  for (Index i = 0; i < n; ++i) {
    forward[i] = change(axes.col(i));
    curvature(i, i) = forward[i] + change(-axes.col(i));
  }
  for (Index i = 0; i < n; ++i) {
    for (Index j = 0; j < i; ++j) {
      curvature(i, j) = curvature(j, i) =
          change(axes.col(i) + axes.col(j)) - forward[i] - forward[j];
    }
  }
  if (!curvature.allFinite()) return axes;
  return axes * Eigen::SelfAdjointEigenSolver<MatrixXd>(curvature).eigenvectors();
}

}  // namespace

std::optional<Propagated> propagate(const std::function<std::optional<double>(const VectorXd&)>& f,
                                    const VectorXd& mean, const MatrixXd& covariance,
                                    Codomain codomain) {
  const auto at_mean = f(mean);
  if (!at_mean) return std::nullopt;
  const Change change(f, mean, *at_mean, codomain == Codomain::circle);
  const MatrixXd axes = uncoupled(change, principal_axes(covariance));
  double variance = 0;
  double shift = 0;
  for (Index i = 0; i < axes.cols(); ++i) {
    const double plus = change(axes.col(i));
    const double minus = change(-axes.col(i));
    const double slope = (plus - minus) / 2;
    const double bend = plus + minus;
    variance += slope * slope + bend * bend / 2;
    shift += bend / 2;
  }
  if (!std::isfinite(variance)) return std::nullopt;
  Propagated out{*at_mean - shift, std::sqrt(variance)};
  if (codomain == Codomain::magnitude) out.value = std::max(0.0, out.value);
  // A direction of which nothing is known is rectangular over the circle: no wider than this.
  if (codomain == Codomain::circle) {
    out.standard_uncertainty =
        std::min(out.standard_uncertainty, std::numbers::pi / std::sqrt(3.0));
  }
  return out;
}

}  // namespace rangecheck::measure
