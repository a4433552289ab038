// SPDX-License-Identifier: MIT
// Errors about the files of a submission. Inside intake only.
#pragma once

#include <string>
#include <utility>

#include "base/result.hpp"

namespace rangecheck::intake {

inline Place file_place(std::string file) {
  return {.file = std::move(file), .line = {}, .frame = {}, .key = ""};
}

/// Of what stands there.
inline Error error_at(Place place, std::string what, std::string remedy = "") {
  return {Fault::bad_value, std::move(what), std::move(place), std::move(remedy)};
}

/// Of a file as a whole.
inline Error error_at(const std::string& file, Fault fault, std::string what,
                      std::string remedy = "") {
  return {fault, std::move(what), file_place(file), std::move(remedy)};
}

}  // namespace rangecheck::intake
