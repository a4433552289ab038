// SPDX-License-Identifier: MIT
#include "posture/problem.hpp"

#include <Eigen/Cholesky>

#include "ceres/tiny_solver.h"

namespace rangecheck::posture {
namespace {

/// Hands a Problem to ceres::TinySolver in the form that it asks for. The solver sees the unknowns
/// after the held ones.
struct DenseView {
  using Scalar = double;
  enum { NUM_RESIDUALS = Eigen::Dynamic, NUM_PARAMETERS = Eigen::Dynamic };
  const Problem* problem;
  Eigen::VectorXd* state;  ///< whole; its held part is read, the rest is scratch
  int held;

  int NumResiduals() const { return problem->residuals(); }
  int NumParameters() const { return problem->unknowns() - held; }
  bool operator()(const double* free, double* residuals, double* jacobian) const {
    state->tail(NumParameters()) = Eigen::Map<const Eigen::VectorXd>(free, NumParameters());
    Eigen::Map<Eigen::MatrixXd> dense(jacobian, jacobian ? problem->residuals() : 0,
                                      jacobian ? NumParameters() : 0);
    if (jacobian != nullptr) dense.setZero();
    Eigen::MatrixXd block;
    int row = 0;
    for (const auto& factor : problem->factors()) {
      factor->evaluate(state->data(), residuals + row, jacobian ? &block : nullptr);
      if (jacobian != nullptr) {
        const auto at = factor->unknowns();
        for (std::size_t k = 0; k < at.size(); ++k) {
          if (at[k] < held) continue;
          dense.block(row, at[k] - held, factor->size(), 1) += block.col(static_cast<int>(k));
        }
      }
      row += factor->size();
    }
    return Eigen::Map<const Eigen::VectorXd>(residuals, row).allFinite();
  }
};

}  // namespace

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

Eigen::VectorXd Problem::gradient(const Eigen::VectorXd& state) const {
  Eigen::VectorXd out = Eigen::VectorXd::Zero(state.size());
  Eigen::VectorXd residual;
  Eigen::MatrixXd block;
  for (const auto& factor : factors_) {
    residual.resize(factor->size());
    factor->evaluate(state.data(), residual.data(), &block);
    const auto at = factor->unknowns();
    const Eigen::VectorXd each = block.transpose() * residual;
    for (std::size_t k = 0; k < at.size(); ++k) out[at[k]] += each[static_cast<int>(k)];
  }
  return out;
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

Eigen::MatrixXd inverse(const Eigen::MatrixXd& information) {
  return information.ldlt().solve(
      Eigen::MatrixXd::Identity(information.rows(), information.cols()));
}

Solved solve(const Problem& problem, const Eigen::VectorXd& start, int held) {
  ceres::TinySolver<DenseView, Eigen::LDLT<Eigen::MatrixXd>> solver;
  solver.options.max_num_iterations = 60;
  // Positions are metres: steps of a few micrometres and costs of a millionth decide nothing.
  solver.options.parameter_tolerance = 1e-6;
  solver.options.gradient_tolerance = 1e-6;
  solver.options.function_tolerance = 1e-7;
  Solved out;
  out.state = start;
  Eigen::VectorXd scratch = start;
  Eigen::VectorXd free = start.tail(problem.unknowns() - held);
  const auto summary = solver.Solve(DenseView{&problem, &scratch, held}, &free);
  out.state.tail(free.size()) = free;
  out.cost = summary.final_cost;
  out.iterations = summary.iterations;
  return out;
}

}  // namespace rangecheck::posture
