// SPDX-License-Identifier: MIT
#include "generator/dialects/dialects.hpp"

namespace rangecheck::samples {

std::vector<Dialect> array_dialects() { return {}; }

}  // namespace rangecheck::samples
