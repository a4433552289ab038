// SPDX-License-Identifier: MIT
#include "generator/dialects/dialects.hpp"

namespace rangecheck::samples {

std::vector<Dialect> object_dialects() { return {}; }

}  // namespace rangecheck::samples
