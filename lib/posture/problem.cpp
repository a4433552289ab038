// SPDX-License-Identifier: MIT
#include "posture/problem.hpp"

#include <Eigen/Cholesky>

#include "ceres/tiny_solver.h"

namespace rangecheck::posture {
namespace {

/// Hands a Problem to ceres::TinySolver in the form that it asks for.
struct DenseView {
  using Scalar = double;
  enum { NUM_RESIDUALS = Eigen::Dynamic, NUM_PARAMETERS = Eigen::Dynamic };
  const Problem* problem;

  int NumResiduals() const { return problem->residuals(); }
  int NumParameters() const { return problem->unknowns(); }
  bool operator()(const double* state, double* residuals, double* jacobian) const {
    Eigen::Map<Eigen::MatrixXd> dense(jacobian, jacobian ? problem->residuals() : 0,
                                      jacobian ? problem->unknowns() : 0);
    if (jacobian != nullptr) dense.setZero();
    Eigen::MatrixXd block;
    int row = 0;
    for (const auto& factor : problem->factors()) {
      factor->evaluate(state, residuals + row, jacobian ? &block : nullptr);
      if (jacobian != nullptr) {
        const auto at = factor->unknowns();
        for (std::size_t k = 0; k < at.size(); ++k) {
          dense.block(row, at[k], factor->size(), 1) += block.col(static_cast<int>(k));
        }
      }
      row += factor->size();
    }
    return Eigen::Map<const Eigen::VectorXd>(residuals, row).allFinite();
  }
};

}  // namespace

double Problem::cost(const Eigen::VectorXd& state) const {
  Eigen::VectorXd residuals(residuals_);
  DenseView{this}(state.data(), residuals.data(), nullptr);
  return residuals.squaredNorm() / 2;
}

void Problem::add_to_hessian(const Factor& factor, const Eigen::VectorXd& state,
                             Eigen::MatrixXd& h) {
  Eigen::VectorXd residual(factor.size());
  Eigen::MatrixXd block;
  factor.evaluate(state.data(), residual.data(), &block);
  const auto at = factor.unknowns();
  const Eigen::MatrixXd square = block.transpose() * block;
  for (std::size_t i = 0; i < at.size(); ++i) {
    for (std::size_t k = 0; k < at.size(); ++k) {
      h(at[i], at[k]) += square(static_cast<int>(i), static_cast<int>(k));
    }
  }
}

Solved solve(const Problem& problem, const Eigen::VectorXd& start) {
  ceres::TinySolver<DenseView, Eigen::LDLT<Eigen::MatrixXd>> solver;
  solver.options.max_num_iterations = 60;
  // Positions are metres: steps of a few micrometres and costs of a millionth decide nothing.
  solver.options.parameter_tolerance = 1e-6;
  solver.options.gradient_tolerance = 1e-6;
  solver.options.function_tolerance = 1e-7;
  Solved out;
  out.state = start;
  const auto summary = solver.Solve(DenseView{&problem}, &out.state);
  out.cost = summary.final_cost;
  out.iterations = summary.iterations;
  return out;
}

}  // namespace rangecheck::posture
