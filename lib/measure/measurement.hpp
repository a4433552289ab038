// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "base/message.hpp"
#include "base/position.hpp"
#include "base/quantity.hpp"
#include "measure/propagation.hpp"
#include "measure/rule.hpp"
#include "posture/posture.hpp"

namespace rangecheck::measure {

/// Every rule, ordered by region from the ground up, then as the region's files are named.
std::span<const Rule* const> catalogue();
/// The rule with this id, or nullptr.
const Rule* find_rule(std::string_view id);

/// Why a value is not called seen, and what would show it.
struct NotSeen {
  Message reason, remedy;
};

/// One measured value. `value` and `standard_uncertainty` are in SI of `rule->dimension`.
/// `value` is set also when not seen, if the points exist at all: wide, for those who look closer;
/// reports must not show it as a result.
struct Measurement {
  const Rule* rule = nullptr;
  std::optional<Position> position = Position::address;  ///< nothing: of the whole swing
  std::optional<double> value;
  double standard_uncertainty = 0;
  /// What prior knowledge alone would leave; infinite for a time, of which there is none.
  double prior_uncertainty = 0;
  std::optional<NotSeen> not_seen;  ///< nothing = seen
};

/// Value and standard uncertainty of `rule` (not one about times) at `posture`, propagated from the
/// covariance of the points it needs (measure/propagation.hpp). A value is seen when every point it
/// needs was evidenced, u is at most the rule's limit, and the evidence at least halved the prior's
/// u. Else the reason, and the remedy: the missing observation that would narrow it most, if that
/// is enough.
Measurement measure(const Rule& rule, const posture::Posture& posture);

/// "stance-width" at address, "top/shoulder-turn" at a later position, "tempo-ratio" of the whole
/// swing: what profiles, results and tables call it.
std::string check_id(std::string_view rule, std::optional<Position> position);

/// Where a check stands in tables: by position, the whole swing last; in each as the catalogue has
/// them, what is no rule of the catalogue after what is, by id.
using InOrder = std::tuple<std::size_t, std::ptrdiff_t, std::string>;
InOrder place_in_order(const std::string& check, std::optional<Position> position);

/// Every rule of the catalogue and of `own` that is measured at `position`, in that order.
std::vector<Measurement> measure_all(const posture::Posture& posture,
                                     Position position = Position::address,
                                     std::span<const Rule* const> own = {});

/// When the moments of a swing were, seconds on one clock, with their covariance (s²). Moments that
/// were not found are absent, with the reason.
struct Timeline {
  std::vector<Moment> moments;
  Eigen::VectorXd time_s;
  Eigen::MatrixXd covariance;
  struct Absent {
    Moment moment;
    Message reason, remedy;
  };
  std::vector<Absent> absent;
};

/// Every rule about times, in the catalogue's order. Seen when u is at most the rule's limit; the
/// reason and remedy of a moment that is absent are the timeline's.
std::vector<Measurement> measure_times(const Timeline& timeline);

/// `rule` at the posture's mean with `covariance` (of all its points) in place of its own; for
/// tests and remedies. Nothing when a point is absent or the value undefined.
std::optional<Propagated> propagate(const Rule& rule, const posture::Posture& posture,
                                    const Eigen::MatrixXd& covariance);

}  // namespace rangecheck::measure
