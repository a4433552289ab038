// SPDX-License-Identifier: MIT
#include "base/result.hpp"

namespace rangecheck {

std::string to_string(const Error& error) {
  const Place& where = error.where;
  std::string out = where.file;
  if (where.line) out += (out.empty() ? "line " : ":") + std::to_string(*where.line);
  const auto add = [&out](const std::string& part) {
    if (part.empty()) return;
    if (!out.empty()) out += ": ";
    out += part;
  };
  if (where.frame) add("frame " + std::to_string(*where.frame));
  add(where.key);
  add(error.what);
  if (!error.remedy.empty()) out += " (" + error.remedy + ")";
  return out;
}

}  // namespace rangecheck
