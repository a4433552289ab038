// SPDX-License-Identifier: MIT
#include "grade/surely_below.hpp"

#include "close.hpp"

using namespace rangecheck::grade;

namespace {

TEST_CASE("surely below: only where the whole 95 % interval is") {
  // 97.5 % point of the normal distribution: NIST/SEMATECH e-Handbook, 1.3.6.7.1: 1.960.
  CHECK_CLOSE(*highest_95(70, 5), 79.8, 0.001);
  CHECK_FALSE(surely_below(70, 5, 70.1));
  CHECK_FALSE(surely_below(70, 5, 79.79));
  CHECK(surely_below(70, 5, 79.81));
}

TEST_CASE("surely below: without uncertainty the limit itself is not below") {
  CHECK_FALSE(surely_below(80, 0, 80));
  CHECK(surely_below(79.999, 0, 80));
}

TEST_CASE("surely below: without a grade nothing is known") {
  CHECK_FALSE(highest_95(std::nullopt, 0).has_value());
  CHECK_FALSE(surely_below(std::nullopt, 0, 100));
}

}  // namespace
