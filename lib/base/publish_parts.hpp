// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <string_view>

#include "base/publish.hpp"

namespace rangecheck {

/// Takes the next bytes of something long.
using Write = std::function<void(std::string_view)>;

/// What `publish` does, for a file that is too long to be in memory: `make` hands it over bit by
/// bit. What `make` fails with is handed on, and `path` stays as it was.
Result<Nothing> publish_in_parts(const std::filesystem::path& path,
                                 const std::function<Result<Nothing>(const Write&)>& make);

}  // namespace rangecheck
