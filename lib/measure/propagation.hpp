// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <functional>
#include <optional>

namespace rangecheck::measure {

/// A value and its standard uncertainty, both in the unit of the function that was propagated.
struct Propagated {
  double value = 0;
  double standard_uncertainty = 0;
};

/// What values a function can take, so that differences are taken the right way round.
enum class Codomain {
  line,      ///< any number
  circle,    ///< an angle in radians: differences wrapped to ±π, uncertainty at most π/√3
  magnitude  ///< never negative, such as an unsigned angle
};

/// Value and standard uncertainty of f(x) for x of mean `mean` and covariance `covariance`:
/// first-order propagation with correlations (JCGM 100:2008, 5.2.2, formula 13) plus the
/// second-order term (5.1.2, note). The axes are the principal ones of the covariance, turned among
/// themselves so that f has no mixed curvature in them; along each, f is taken one standard
/// deviation either way. The mean shift ½ Σ(f₊ + f₋ − 2 f₀) that curvature causes is taken off the
/// value, which for an unsigned angle near 0 is the amount by which it reads high. Nothing where f
/// is undefined at the mean or one standard deviation from it.
std::optional<Propagated> propagate(
    const std::function<std::optional<double>(const Eigen::VectorXd&)>& f,
    const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance, Codomain codomain);

}  // namespace rangecheck::measure
