// SPDX-License-Identifier: MIT
// Numbers in the names of files and pictures: their order, and the frames they stand for.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace rangecheck::intake {

/// Order in which 9.json stands before 10.json, whatever zeros are in front.
bool natural_less(std::string_view a, std::string_view b);

/// natural_less for containers.
struct NaturalOrder {
  bool operator()(std::string_view a, std::string_view b) const { return natural_less(a, b); }
};

/// Frame numbers for names in natural order: the last number in each name, its ending left out, if
/// these increase; else 0, 1, 2, …
std::vector<std::size_t> frame_numbers(const std::vector<std::string>& names);

}  // namespace rangecheck::intake
