// SPDX-License-Identifier: MIT
// Where a submission comes from, and its manifest. Inside intake only.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.hpp"
#include "intake/files.hpp"
#include "intake/manifest.hpp"
#include "intake/submission.hpp"

namespace rangecheck::intake {

inline constexpr std::size_t largest_manifest = std::size_t{1} << 20;

struct Origin {
  std::string id;                      ///< of the submission
  std::string name;                    ///< what errors call the folder; "" for loose files
  std::shared_ptr<const Files> files;  ///< of the submission; of loose ones the folder they are in
  std::vector<std::string> loose;      ///< names of loose files

  std::string name_of(const std::string& inside) const {
    return name.empty() ? printable(inside) : name + '/' + printable(inside);
  }
};

/// The files of a submission of an inbox; of a loose one those of the inbox.
FolderFiles files_of(const Location& location);

/// Where a submission of an inbox is, if that can be one.
Result<Origin> origin_of(const Location& location);
/// `record` has to outlive it.
Origin origin_of(const Record& record);

/// What stands in submission.yaml; without one, what the names of files say.
Result<Manifest> manifest_of(const Origin& origin);

/// Why a path that a manifest names can't be that of a file of the submission, if so.
std::optional<std::string> why_foreign(const std::string& written);

/// Names of the films of a folder without a manifest, in order.
std::vector<std::string> films_in(const Origin& origin);

}  // namespace rangecheck::intake
