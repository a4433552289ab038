// SPDX-License-Identifier: MIT
// What must hold of every path before anything is written or removed there.
#pragma once

#include <array>
#include <filesystem>
#include <string>
#include <string_view>

#include "base/publish.hpp"

namespace rangecheck::inbox {

/// Where what is written about one submission is in the output folder, and the files there. The
/// last tells whose they are, so that whoever removes them removes it last.
std::filesystem::path report_folder(const std::filesystem::path& out,
                                    const std::string& submission);
inline constexpr std::array<std::string_view, 3> report_files = {"report.txt", "page.html",
                                                                 "result.json"};

Error error_at(Fault fault, std::string what, const std::filesystem::path& path,
               std::string remedy);

/// Whether `path` is `folder` or below it, links followed. Neither need exist.
bool lies_in(const std::filesystem::path& path, const std::filesystem::path& folder);

/// A link in the output folder could lead anywhere, so nothing is written through one.
Result<Nothing> refuse_link(const std::filesystem::path& path);

/// What is not there is as good as removed.
Result<Nothing> remove_file(const std::filesystem::path& path);

}  // namespace rangecheck::inbox
