// SPDX-License-Identifier: MIT
// What single parts cost: bytes to landmarks, by several readers, and the address solve of two
// films, by ours and by Ceres's ordinary dense solver. Google Benchmark's options go with it.
#include <benchmark/benchmark.h>
#include <ceres/ceres.h>
#include <simdjson.h>

#include <memory>
#include <set>

#include "generator/drawn.hpp"
#include "generator/writer.hpp"
#include "intake/landmarks.hpp"
#include "posture/carried.hpp"
#include "posture/evidence.hpp"
#include "posture/position.hpp"
#include "readers.hpp"

namespace rangecheck::bench {
namespace {

// ------------------------------------------------------------------------------ a film's bytes

/// 300 frames of 33 points in picture and space, all digits of every number.
const std::string& film_text() {
  static const std::string text = [] {
    samples::Options options;
    options.detector.skeleton = samples::Skeleton::points_33;
    options.detector.frames = 300;
    const auto drawn = samples::draw(9000, options);
    std::string written = samples::points_33_results(
        samples::film_of(drawn.films[0], 60, samples::Hand::right), samples::Digits::all);
    written.reserve(written.size() + simdjson::SIMDJSON_PADDING);
    return written;
  }();
  return text;
}

void count_bytes(benchmark::State& state) {
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(film_text().size()));
}

template <double (*read)(const std::string&)>
void reading(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(read(film_text()));
  count_bytes(state);
}
BENCHMARK(reading<bench::by_walk>)->Name("simdjson_walk")->Unit(benchmark::kMillisecond);
BENCHMARK(reading<bench::by_tape>)->Name("simdjson_tape")->Unit(benchmark::kMillisecond);
BENCHMARK(reading<bench::by_events>)->Name("nlohmann_sax")->Unit(benchmark::kMillisecond);
BENCHMARK(reading<bench::by_document>)->Name("nlohmann_document")->Unit(benchmark::kMillisecond);

/// Bytes to checked landmarks: what a grade pays for a film before it looks at it.
void intake_of_film(benchmark::State& state) {
  std::vector<intake::LandmarkText> files{{"film.json", {}}};
  for (auto _ : state) {
    state.PauseTiming();
    files[0].bytes = film_text();
    files[0].bytes.reserve(film_text().size() + simdjson::SIMDJSON_PADDING);
    state.ResumeTiming();
    const auto film = intake::read_landmarks(files, {.image = intake::ImageSize{1080, 1920}});
    benchmark::DoNotOptimize(film->frames.size());
  }
  count_bytes(state);
}
BENCHMARK(intake_of_film)->Unit(benchmark::kMillisecond);

// ------------------------------------------------------------------------------ address

/// The address of a made-up golfer in two films, as the estimation problem that a grade solves.
struct TwoViews {
  posture::Evidence evidence;
  std::shared_ptr<const posture::Carried> carried;
  Eigen::VectorXd start;
  posture::Problem problem;

  explicit TwoViews(std::uint64_t seed)
      : evidence(test::evidence_of(samples::draw(seed), seed)),
        carried(posture::estimate_address_to_carry(evidence)->carried),
        start(carried->moment().guess()),
        problem(carried->moment().problem(start)) {}
};

const TwoViews& two_views() {
  static const TwoViews one(417);
  return one;
}

void solve_with_covariance(benchmark::State& state) {
  const TwoViews& given = two_views();
  double cost = 0;
  for (auto _ : state) {
    const auto solved = posture::solve(given.problem, given.start);
    const auto information =
        given.problem.hessian(solved.state, [](posture::Source) { return true; });
    benchmark::DoNotOptimize(posture::inverse(information).sum());
    cost = solved.cost;
  }
  state.counters["cost"] = cost;
}
BENCHMARK(solve_with_covariance)->Unit(benchmark::kMillisecond);

/// A factor as Ceres sees it, with the same automatic derivatives (its own Jets): its unknowns are
/// whole blocks.
class FactorCost : public ceres::CostFunction {
 public:
  FactorCost(const posture::Factor& factor, const std::vector<std::pair<int, int>>& blocks)
      : factor_(factor) {
    set_num_residuals(factor.size());
    for (const auto& [first, size] : blocks) mutable_parameter_block_sizes()->push_back(size);
    int end = 0;
    for (const auto& [first, size] : blocks) end = std::max(end, first + size);
    state_.resize(end);
    blocks_ = blocks;
  }

  bool Evaluate(double const* const* parameters, double* residuals,
                double** jacobians) const override {
    for (std::size_t b = 0; b < blocks_.size(); ++b)
      std::copy_n(parameters[b], blocks_[b].second, state_.data() + blocks_[b].first);
    factor_.evaluate(state_.data(), residuals, jacobians == nullptr ? nullptr : &all_);
    if (jacobians == nullptr) return true;
    const auto at = factor_.unknowns();
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      if (jacobians[b] == nullptr) continue;
      const auto [first, size] = blocks_[b];
      Eigen::Map<Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>> out(
          jacobians[b], num_residuals(), size);
      out.setZero();
      for (std::size_t k = 0; k < at.size(); ++k)
        if (at[k] >= first && at[k] < first + size)
          out.col(at[k] - first) += all_.col(static_cast<Eigen::Index>(k));
    }
    return true;
  }

 private:
  const posture::Factor& factor_;
  std::vector<std::pair<int, int>> blocks_;
  // Room for work, so that no allocation is held against Ceres; one thread.
  mutable Eigen::VectorXd state_;
  mutable Eigen::MatrixXd all_;
};

/// The unknowns in runs that every factor takes whole or leaves: joints and cameras, as one would
/// write them for Ceres by hand. A block begins where some factor's run of unknowns does, or ends.
std::vector<std::pair<int, int>> blocks_of(const posture::Problem& problem) {
  std::set<int> cuts{0, problem.unknowns()};
  for (const auto& factor : problem.factors()) {
    const auto at = factor->unknowns();
    for (std::size_t k = 0; k < at.size(); ++k) {
      if (k == 0 || at[k] != at[k - 1] + 1) cuts.insert(at[k]);
      if (k + 1 == at.size() || at[k + 1] != at[k] + 1) cuts.insert(at[k] + 1);
    }
  }
  std::vector<std::pair<int, int>> blocks;
  for (auto cut = cuts.begin(); std::next(cut) != cuts.end(); ++cut)
    blocks.emplace_back(*cut, *std::next(cut) - *cut);
  return blocks;
}

void ceres_dense_with_covariance(benchmark::State& state) {
  const TwoViews& given = two_views();
  const auto blocks = blocks_of(given.problem);
  double cost = 0;
  for (auto _ : state) {
    Eigen::VectorXd x = given.start;
    ceres::Problem problem;
    for (const auto& [first, size] : blocks) problem.AddParameterBlock(x.data() + first, size);
    for (const auto& factor : given.problem.factors()) {
      std::vector<std::pair<int, int>> of_factor;
      std::vector<double*> parameters;
      for (const auto& block : blocks) {
        const auto at = factor->unknowns();
        if (std::find(at.begin(), at.end(), block.first) == at.end()) continue;
        of_factor.push_back(block);
        parameters.push_back(x.data() + block.first);
      }
      problem.AddResidualBlock(new FactorCost(*factor, of_factor), nullptr, parameters);
    }
    ceres::Solver::Options options;
    options.linear_solver_type =
        state.range(0) == 0 ? ceres::DENSE_QR : ceres::DENSE_NORMAL_CHOLESKY;
    options.num_threads = 1;
    options.logging_type = ceres::SILENT;
    options.max_num_iterations = 200;
    ceres::Solver::Summary summary;
    ceres::Solve(options, &problem, &summary);
    ceres::Covariance::Options how;
    how.algorithm_type = ceres::DENSE_SVD;
    how.num_threads = 1;
    ceres::Covariance covariance(how);
    std::vector<std::pair<const double*, const double*>> wanted;
    for (const auto& a : blocks)
      for (const auto& b : blocks)
        if (a.first <= b.first) wanted.emplace_back(x.data() + a.first, x.data() + b.first);
    benchmark::DoNotOptimize(covariance.Compute(wanted, &problem));
    cost = summary.final_cost;
  }
  state.SetLabel(state.range(0) == 0 ? "DENSE_QR" : "DENSE_NORMAL_CHOLESKY");
  state.counters["cost"] = cost;
}
BENCHMARK(ceres_dense_with_covariance)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace rangecheck::bench

BENCHMARK_MAIN();
