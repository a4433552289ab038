// SPDX-License-Identifier: MIT
#include "base/result.hpp"

#include <array>

namespace rangecheck {
namespace {

constexpr std::array<std::pair<Fault, std::string_view>, 6> fault_names{{
    {Fault::unreadable, "unreadable"},
    {Fault::not_a_film, "not-a-film"},
    {Fault::bad_value, "bad-value"},
    {Fault::bad_profile, "bad-profile"},
    {Fault::disagreement, "disagreement"},
    {Fault::io, "io"},
}};

}  // namespace

std::string_view name_of(Fault fault) {
  for (const auto& [each, name] : fault_names)
    if (each == fault) return name;
  return "unreadable";
}

std::optional<Fault> find_fault(std::string_view name) {
  for (const auto& [fault, each] : fault_names)
    if (each == name) return fault;
  return std::nullopt;
}

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
