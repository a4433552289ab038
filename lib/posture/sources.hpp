// SPDX-License-Identifier: MIT
#pragma once

#include "posture/problem.hpp"

namespace rangecheck::posture {

/// Numbers of the sources of a still moment. Sources of a view are counted by view.
namespace source {
inline constexpr Source prior = 0;
inline constexpr Source stature = 1;
inline constexpr Source shoe = 2;
constexpr Source film(std::size_t view) { return 10 + static_cast<int>(view); }
constexpr Source space(std::size_t view) { return 20 + static_cast<int>(view); }
constexpr Source ball(std::size_t view) { return 30 + static_cast<int>(view); }
constexpr Source stick(std::size_t view) { return 40 + static_cast<int>(view); }
constexpr Source camera(std::size_t view) { return 50 + static_cast<int>(view); }

constexpr bool is_space(Source s) { return s / 10 == 2; }

/// What a person knows without any film: everything but what films show.
constexpr bool is_prior_knowledge(Source s) { return s <= shoe || s >= 50; }
}  // namespace source

}  // namespace rangecheck::posture
