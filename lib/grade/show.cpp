// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "grade/profile_lines.hpp"
#include "grade/profile_text.hpp"
#include "grade/taught_files.hpp"

namespace rangecheck::grade {
namespace {

Result<const ProfilePart*> find_merged(const TaughtFiles& files, const std::string& id) {
  const auto found = std::ranges::find(files.merged, id, &ProfilePart::id);
  if (found != files.merged.end()) return &*found;
  std::vector<std::string_view> ids;
  for (const auto& part : files.merged) ids.push_back(part.id);
  return Error{
      Fault::bad_value, "there is no profile " + rangecheck::quoted(id), {}, did_you_mean(id, ids)};
}

/// Text with where it comes from behind it.
std::string with_origin(const Line& line) { return line.text + "  # " + line.origin; }

std::string head_of(const ProfilePart& part) {
  std::string out;
  for (const std::string_view key : {"version", "id", "title", "language", "club", "swing", "style",
                                     "confidence", "least-seen"}) {
    const AsWritten* written = part.written.find(key);
    // These two are never handed down.
    if (!written || (key == "title" && !part.title) ||
        (key == "language" && part.language == Written().language))
      continue;
    out += with_origin({fmt::format("{}: {}", key, yaml_scalar(written->text)),
                        origin_of(written->place)}) +
           "\n";
  }
  const Profile by_itself;
  if (!part.confidence)
    out += fmt::format("confidence: {}  # the program's own\n", by_itself.confidence);
  if (!part.least_seen)
    out += fmt::format("least-seen: {}  # the program's own\n", by_itself.least_seen_share);
  return out;
}

}  // namespace

Result<std::string> shown_profile(const std::filesystem::path& folder, const std::string& id) {
  const auto files = read_taught_files(folder);
  if (!files.faults.empty()) return files.faults.front();
  const auto part = find_merged(files, id);
  if (!part) return part.error();
  const auto lines = [&](const CheckPart& check) {
    std::vector<std::string> out;
    for (const auto& line : lines_of(check, (*part)->language, files.known))
      out.push_back(with_origin(line));
    return out;
  };
  return head_of(**part) + sections_text((*part)->checks, lines, "");
}

Result<std::string> profile_for(const std::filesystem::path& folder, const std::string& club,
                                const std::string& swing, const std::string& style) {
  const auto set = load_profiles(folder);
  if (!set) return set.error();
  const auto profile = choose_profile(*set, club, swing, style);
  if (!profile) return profile.error();
  return (*profile)->id;
}

}  // namespace rangecheck::grade
