// SPDX-License-Identifier: MIT
#pragma once

#include <doctest/doctest.h>

#include <cmath>

/// |a − b| ≤ within, absolute. (doctest::Approx is relative to 1 + magnitude: too wide for angles.)
#define CHECK_CLOSE(a, b, within)                   \
  do {                                              \
    const double close_a = (a), close_b = (b);      \
    CAPTURE(close_a);                               \
    CAPTURE(close_b);                               \
    CHECK(std::abs(close_a - close_b) <= (within)); \
  } while (false)
