// SPDX-License-Identifier: MIT
#include "generator/smooth_path.hpp"

#include "close.hpp"

namespace rangecheck::samples {
namespace {

const SmoothPath path({{0, 1}, {0.4, 3}, {0.5, 4}, {1.0, -2}, {1.6, -2}, {2.0, 0}});

TEST_CASE("a path goes through its knots and is still before the first and after the last") {
  for (const auto& [time_s, value] :
       {Knot{-1, 1}, {0, 1}, {0.4, 3}, {0.5, 4}, {1, -2}, {1.3, -2}, {1.6, -2}, {2, 0}, {3, 0}}) {
    CAPTURE(time_s);
    CHECK_CLOSE(path.at(time_s), value, 1e-12);
  }
  for (const double time_s : {-0.5, 0.0, 0.5, 1.0, 2.0, 2.5}) {
    CAPTURE(time_s);
    CHECK_CLOSE(path.speed(time_s), 0, 1e-12);
  }
}

TEST_CASE("speed is the slope, and neither it nor the acceleration jumps") {
  constexpr double step = 1e-5;
  double before = 0;
  for (double time_s = -0.1; time_s < 2.1; time_s += step) {
    const double slope = (path.at(time_s + step) - path.at(time_s - step)) / (2 * step);
    const double bend = (path.speed(time_s + step) - path.speed(time_s - step)) / (2 * step);
    REQUIRE(std::abs(path.speed(time_s) - slope) < 1e-4);
    REQUIRE(std::abs(bend - before) < 0.5);  // of accelerations of hundreds
    before = bend;
  }
}

TEST_CASE("a path stays between the knots that it passes") {
  double high = -10, low = 10;
  for (double time_s = 0; time_s < 2; time_s += 0.001) {
    high = std::max(high, path.at(time_s));
    low = std::min(low, path.at(time_s));
  }
  CHECK_CLOSE(high, 4, 1e-6);
  CHECK_CLOSE(low, -2, 1e-6);
}

TEST_CASE("a value is held below a limit and left alone under zero") {
  CHECK(held_below(-3, 1) == -3);
  CHECK(held_below(0, 1) == 0);
  CHECK_CLOSE(held_below(0.5, 1), 0.46211715726000979, 1e-15);  // tanh(0.5)
  CHECK_CLOSE(held_below(50, 2), 2, 1e-12);
}

TEST_CASE("a smooth step") {
  CHECK(smooth_step(-1) == 0);
  CHECK(smooth_step(0.5) == 0.5);
  CHECK_CLOSE(smooth_step(0.25), 0.103515625, 1e-15);  // 10/64 - 15/256 + 6/1024
  CHECK(smooth_step(2) == 1);
}

}  // namespace
}  // namespace rangecheck::samples
