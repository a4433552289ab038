// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "grade/filming.hpp"
#include "report/inspection.hpp"

namespace rangecheck::inbox {

/// What `rangecheck inspect` asks for.
struct InspectJob {
  std::filesystem::path file;        ///< or a folder with one file a frame
  intake::ReadOptions how;           ///< picture size, hand, point set
  std::optional<intake::View> view;  ///< absent: as the film itself tells
  std::optional<double> rate_hz;     ///< of the real scene
  std::string swing = "full";
  grade::Filming filming;
};

/// Everything that one landmark file tells, however bad the film is. An error when it is no film:
/// not there, not readable, of no form that is known.
Result<report::Inspection> inspect(const InspectJob& job);

}  // namespace rangecheck::inbox
