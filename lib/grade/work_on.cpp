// SPDX-License-Identifier: MIT
#include "grade/work_on.hpp"

#include <algorithm>
#include <optional>

namespace rangecheck::grade {
namespace {

constexpr std::size_t most_items = 3;

/// Beyond this many fades, farther out is no more urgent: it is as likely a wrong point as a fault.
constexpr double most_severe = 2;  // common practice, no source

bool is_outside(const CheckResult& result) {
  return result.verdict == Verdict::low || result.verdict == Verdict::high ||
         result.verdict == Verdict::outside_words;
}

/// How far outside, in fades.
double severity(const CheckResult& result) {
  if (result.verdict == Verdict::outside_words) return 1;
  const double beyond = distance_beyond(*result.value_si, result.check.band);
  return std::min(most_severe, beyond / result.check.fade_si);
}

class Chain {
 public:
  explicit Chain(std::span<const CheckResult> results)
      : results_(results), drives_(results.size(), std::vector<bool>(results.size(), false)) {
    for (std::size_t i = 0; i < results_.size(); ++i) follow(i, results_[i]);
    for (std::size_t i = 0; i < results_.size(); ++i) priority_.push_back(priority_of(i));
  }

  double priority(std::size_t i) const { return priority_[i]; }

  /// The most urgent of the outside checks that drive `i` and aren't in `chosen`.
  std::optional<std::size_t> cause(std::size_t i, const std::vector<std::size_t>& chosen) const {
    std::optional<std::size_t> best;
    for (std::size_t j = 0; j < results_.size(); ++j) {
      if (!drives_[j][i] || !(priority_[j] > 0) || std::ranges::find(chosen, j) != chosen.end())
        continue;
      if (!best || priority_[j] > priority_[*best]) best = j;
    }
    return best;
  }

 private:
  /// Marks what `from` drives. A check that is surely inside ends the chain: it hands nothing on.
  void follow(std::size_t root, const CheckResult& from) {
    for (const auto& id : from.check.drives) {
      const auto driven = std::ranges::find_if(
          results_, [&](const CheckResult& result) { return result.check.id == id; });
      if (driven == results_.end() || driven->verdict == Verdict::inside) continue;
      const auto index = static_cast<std::size_t>(driven - results_.begin());
      if (drives_[root][index]) continue;
      drives_[root][index] = true;
      follow(root, *driven);
    }
  }

  double priority_of(std::size_t i) const {
    if (!is_outside(results_[i])) return 0;
    double driven_weight = 0;
    for (std::size_t j = 0; j < results_.size(); ++j)
      if (drives_[i][j] && is_outside(results_[j])) driven_weight += results_[j].check.weight;
    return severity(results_[i]) * results_[i].check.weight * (1 + driven_weight);
  }

  std::span<const CheckResult> results_;
  std::vector<std::vector<bool>> drives_;  ///< [i][j]: i drives j, directly or through others
  std::vector<double> priority_;
};

}  // namespace

std::vector<std::size_t> choose_work(std::span<const CheckResult> results) {
  const Chain chain(results);
  std::vector<std::size_t> chosen;
  while (chosen.size() < most_items) {
    std::optional<std::size_t> next;
    for (std::size_t i = 0; i < results.size(); ++i) {
      if (!(chain.priority(i) > 0) || std::ranges::find(chosen, i) != chosen.end()) continue;
      if (!next || chain.priority(i) > chain.priority(*next)) next = i;
    }
    if (!next) break;
    // Drives never loop (load_profiles sees to that), so this climb ends.
    while (const auto cause = chain.cause(*next, chosen)) next = cause;
    chosen.push_back(*next);
  }
  return chosen;
}

}  // namespace rangecheck::grade
