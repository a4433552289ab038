// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/quantity.hpp"
#include "measure/rule.hpp"
#include "posture/posture.hpp"

namespace rangecheck::measure {

/// Every rule, ordered by region from the ground up, then as the region's files are named.
std::span<const Rule* const> catalogue();
/// The rule with this id, or nullptr.
const Rule* find_rule(std::string_view id);

/// Why a value is not called seen, and what would show it.
struct NotSeen {
  std::string reason;
  std::string remedy;
};

/// One measured value. `value` and `standard_uncertainty` are in SI of `rule->dimension`.
/// `value` is set also when not seen, if the points exist at all: wide, for those who look closer;
/// reports must not show it as a result.
struct Measurement {
  const Rule* rule = nullptr;
  std::optional<double> value;
  double standard_uncertainty = 0;
  double prior_uncertainty = 0;     ///< what prior knowledge alone would leave
  std::optional<NotSeen> not_seen;  ///< nothing = seen
};

/// Value and standard uncertainty of `rule` at `posture`: first-order propagation of the full
/// covariance (JCGM 100:2008, 5.2.2) plus the second-order term, by central differences one standard
/// deviation along each principal axis of the points the rule needs. A value is seen when u is at
/// most the rule's limit, the evidence at least halved the prior's u, and the landmarks it rests on
/// were evidenced or are tied to ones that were. Else the reason and the remedy that narrows it most.
Measurement measure(const Rule& rule, const posture::Posture& posture);

/// All of the catalogue, in its order.
std::vector<Measurement> measure_all(const posture::Posture& posture);

/// u of a function of a posture when `covariance` is of all its points; for tests and remedies.
struct Propagated {
  double value = 0;
  double standard_uncertainty = 0;
};
std::optional<Propagated> propagate(const Rule& rule, const posture::Posture& posture,
                                    const Eigen::MatrixXd& covariance);

}  // namespace rangecheck::measure
