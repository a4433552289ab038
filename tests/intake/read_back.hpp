// SPDX-License-Identifier: MIT
// The made-up scene, written by a dialect and read back: what is not as it was written.
#pragma once

#include <string>
#include <vector>

#include "generator/dialects/dialects.hpp"
#include "intake/landmarks.hpp"

namespace rangecheck::intake {

/// Reads what the dialect wrote, with what a submission has to tell about it.
Result<Film> read_back(const samples::Dialect& dialect, const samples::Scene& scene);

/// Each difference in words; empty when every point of every person, every missing point, number,
/// time and track came back as the dialect says that its files hold it.
std::vector<std::string> differences(const samples::Dialect& dialect, const samples::Scene& scene,
                                     const Film& film);

}  // namespace rangecheck::intake
