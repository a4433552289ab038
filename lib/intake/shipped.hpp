// SPDX-License-Identifier: MIT
// The files of profiles/layouts as they were when the program was built.
#pragma once

#include <span>
#include <string_view>

namespace rangecheck::intake {

struct ShippedFile {
  std::string_view name;  ///< "halpe-26.yaml"
  std::string_view text;
};

std::span<const ShippedFile> shipped_layout_files();
/// names.yaml.
std::string_view shipped_names();

}  // namespace rangecheck::intake
