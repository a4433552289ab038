// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "base/yaml.hpp"
#include "intake/club_points.hpp"

namespace rangecheck::intake {

/// `[612, 1540]`, or nothing for anything else.
std::optional<ImagePoint> point_of(const YAML::Node& node);

/// The list under `clicks:` of a view:
///   - { frame: 37, grip_end: [612, 900], club_toe: [588, 1490] }
///   - { time: 1.25 s, ball: [640, 1540] }
/// An error for an entry with neither or both of frame and time, without a point, or with a name
/// that is no point of club or ball.
Result<std::vector<Click>> read_clicks(const YAML::Node& node, const std::string& file,
                                       const std::string& path);

}  // namespace rangecheck::intake
