// SPDX-License-Identifier: MIT
// Prints the hand-made results as JSON Lines, for validate.py.
#include <cstdio>

#include "course_example.hpp"

int main() {
  using namespace rangecheck::report;
  for (const auto& line : {result_json(example_with_course(), std::nullopt),
                           result_json(example_graded(), std::nullopt),
                           result_json(example_without_grade(), std::nullopt),
                           result_json(example_swing(), std::nullopt),
                           result_json(example_address_of_swing(), std::nullopt),
                           set_aside_json(example_set_aside(), std::nullopt)})
    std::fputs(line.c_str(), stdout);
}
