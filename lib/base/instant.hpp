// SPDX-License-Identifier: MIT
#pragma once

#include <chrono>
#include <optional>
#include <string_view>

namespace rangecheck {

/// Reads an ISO 8601 date, alone or with a time: 2026-03-14, 2026-03-14T18:22,
/// 2026-03-14T18:22:00.250+01:00. A date alone is its midnight; without an offset UTC is meant;
/// parts of a second are dropped. Nothing when it is none, or no day of the calendar.
std::optional<std::chrono::sys_seconds> parse_instant(std::string_view iso_8601);

}  // namespace rangecheck
