// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <array>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "ceres/jet.h"

namespace rangecheck::posture {

/// Where a residual comes from: prior knowledge or one source of evidence.
using Source = int;

/// A problem at one state, as far as its unknowns from some first one on are concerned.
struct Linearised {
  double cost = 0;           ///< half the sum of squared residuals
  Eigen::VectorXd gradient;  ///< of the cost: Jᵀr
  Eigen::MatrixXd hessian;   ///< Gauss–Newton's: JᵀJ
};

/// One block of whitened residuals (each about N(0, 1) if all is well) over a few unknowns.
class Factor {
 public:
  explicit Factor(Source source) : source_(source) {}
  virtual ~Factor() = default;
  Source source() const { return source_; }
  virtual int size() const = 0;
  virtual std::span<const int> unknowns() const = 0;
  /// Residuals at `state`; if `jacobian` is given, also the derivatives by unknowns(), one row a
  /// residual.
  virtual void evaluate(const double* state, double* residual, Eigen::MatrixXd* jacobian) const = 0;
  /// Adds what the factor has to say of the unknowns from `first` on; of the Hessian only the lower
  /// triangle.
  virtual void add_to(Linearised& sum, const double* state, int first) const = 0;

 private:
  Source source_;
};

/// A factor whose derivatives come from `Formula`, written for any scalar:
/// template <class T> std::array<T, M> operator()(const std::array<T, K>& unknowns) const.
template <int M, int K, class Formula>
class AutomaticFactor final : public Factor {
 public:
  AutomaticFactor(Source source, std::array<int, K> at, Formula formula)
      : Factor(source), at_(at), formula_(std::move(formula)) {}
  int size() const override { return M; }
  std::span<const int> unknowns() const override { return at_; }

  void evaluate(const double* state, double* residual, Eigen::MatrixXd* jacobian) const override {
    if (jacobian == nullptr) {
      std::array<double, K> x;
      for (int k = 0; k < K; ++k) x[k] = state[at_[k]];
      const auto r = formula_(x);
      std::copy(r.begin(), r.end(), residual);
      return;
    }
    const auto r = differentiated(state);
    jacobian->resize(M, K);
    for (int m = 0; m < M; ++m) {
      residual[m] = r[m].a;
      jacobian->row(m) = r[m].v.transpose();
    }
  }

  void add_to(Linearised& sum, const double* state, int first) const override {
    const auto r = differentiated(state);
    for (int m = 0; m < M; ++m) sum.cost += r[m].a * r[m].a / 2;
    for (int i = 0; i < K; ++i) {
      const int row = at_[i] - first;
      if (row < 0) continue;
      for (int m = 0; m < M; ++m) sum.gradient[row] += r[m].v[i] * r[m].a;
      for (int k = 0; k < K; ++k) {
        const int column = at_[k] - first;
        if (column < 0 || column > row) continue;
        double product = 0;
        for (int m = 0; m < M; ++m) product += r[m].v[i] * r[m].v[k];
        sum.hessian(row, column) += product;
      }
    }
  }

 private:
  using Jet = ceres::Jet<double, K>;

  /// Residuals, and their derivatives by the factor's own unknowns.
  std::array<Jet, M> differentiated(const double* state) const {
    std::array<Jet, K> x;
    for (int k = 0; k < K; ++k) x[k] = Jet(state[at_[k]], k);
    return formula_(x);
  }

  std::array<int, K> at_;
  Formula formula_;
};

/// A nonlinear least-squares problem: a list of factors over one state vector.
class Problem {
 public:
  explicit Problem(int unknowns) : unknowns_(unknowns) {}

  template <int M, int K, class Formula>
  void add(Source source, std::array<int, K> at, Formula formula) {
    factors_.push_back(
        std::make_unique<AutomaticFactor<M, K, Formula>>(source, at, std::move(formula)));
  }

  int unknowns() const { return unknowns_; }
  const std::vector<std::unique_ptr<Factor>>& factors() const { return factors_; }

  /// Half the sum of squared residuals.
  double cost(const Eigen::VectorXd& state) const;
  /// All factors at `state`, for the unknowns from `first` on.
  Linearised linearised(const Eigen::VectorXd& state, int first = 0) const;
  /// Gauss–Newton Hessian JᵀJ of the factors that `wanted` accepts.
  template <class Wanted>
  Eigen::MatrixXd hessian(const Eigen::VectorXd& state, Wanted wanted) const {
    Linearised sum = nothing(state.size());
    for (const auto& factor : factors_) {
      if (wanted(factor->source())) factor->add_to(sum, state.data(), 0);
    }
    return sum.hessian.selfadjointView<Eigen::Lower>();
  }

 private:
  static Linearised nothing(Eigen::Index unknowns);

  int unknowns_;
  std::vector<std::unique_ptr<Factor>> factors_;
};

struct Solved {
  Eigen::VectorXd state;
  double cost = 0;
};

/// The covariance that an information matrix leaves: its inverse.
Eigen::MatrixXd inverse(const Eigen::MatrixXd& information);

/// Levenberg–Marquardt from `start`, by the rules of ceres::TinySolver. The first `held` unknowns
/// stay as they are. The normal equations are gathered factor by factor: each knows of a dozen
/// unknowns, so that nearly all of a dense Jacobian would be noughts.
Solved solve(const Problem& problem, const Eigen::VectorXd& start, int held = 0);

}  // namespace rangecheck::posture
