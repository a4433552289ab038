// SPDX-License-Identifier: MIT
// The parts of the coach's page that have a file of their own. Not for other rooms.
#pragma once

#include <string_view>

namespace rangecheck::report {

/// Sorts and filters the page's tables where it is opened: the program's own, the same on every
/// page.
std::string_view coach_script();

/// Base64 of its SHA-256, by which the page's policy knows it (Content Security Policy Level 3,
/// 2.3.1). After a change check_pages.py says what it has become.
inline constexpr std::string_view coach_script_sha256 =
    "el94+QfQ2/u/0PD8inikw/3roRN2OhttuHxaKVIAt8I=";

}  // namespace rangecheck::report
