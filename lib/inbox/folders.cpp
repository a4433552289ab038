// SPDX-License-Identifier: MIT
#include "inbox/folders.hpp"

#include <algorithm>
#include <system_error>

#include "base/text.hpp"

namespace rangecheck::inbox {

namespace fs = std::filesystem;

fs::path report_folder(const fs::path& out, const std::string& submission) {
  return out / "students" / submission;
}

Error error_at(Fault fault, std::string what, const fs::path& path, std::string remedy) {
  Error error{fault, std::move(what), {}, std::move(remedy)};
  error.where.file = printable(path.string());
  return error;
}

bool lies_in(const fs::path& path, const fs::path& folder) {
  std::error_code failed;
  const fs::path inner = fs::weakly_canonical(fs::absolute(path, failed), failed);
  const fs::path outer = fs::weakly_canonical(fs::absolute(folder, failed), failed);
  return std::mismatch(outer.begin(), outer.end(), inner.begin(), inner.end()).first == outer.end();
}

Result<Nothing> refuse_link(const fs::path& path) {
  std::error_code ignored;
  if (!fs::is_symlink(fs::symlink_status(path, ignored))) return Nothing{};
  return error_at(Fault::io, "is a link, and reports are not written through links", path,
                  "remove it");
}

Result<Nothing> remove_file(const fs::path& path) {
  std::error_code failed;
  fs::remove(path, failed);
  if (!failed) return Nothing{};
  return error_at(Fault::io, "can't be removed: " + failed.message(), path,
                  "remove it by hand: it is of an earlier run");
}

}  // namespace rangecheck::inbox
