// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace rangecheck::intake {

/// What some programs put before text in UTF-8. It is none of the text.
inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

}  // namespace rangecheck::intake
