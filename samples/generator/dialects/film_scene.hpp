// SPDX-License-Identifier: MIT
#pragma once

#include "generator/dialects/scene.hpp"
#include "generator/writer.hpp"

namespace rangecheck::samples {

/// The film as the writers of dialects take it. The middle of the hips is made from the hips; a
/// point that was not detected is there as not seen. Tracks number the people as they are listed.
/// Right-handers only, whose lead side is the left.
Scene scene_of(const Film& film);

}  // namespace rangecheck::samples
