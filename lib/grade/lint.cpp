// SPDX-License-Identifier: MIT
#include "grade/lint.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include "base/text.hpp"
#include "grade/advice.hpp"

namespace rangecheck::grade {
namespace {

namespace fs = std::filesystem;

/// The file as the folder's reader names it, if it lies in there.
std::optional<std::string> name_inside(const fs::path& folder, const fs::path& file) {
  std::error_code failed;
  const auto name = fs::weakly_canonical(file, failed)
                        .lexically_relative(fs::weakly_canonical(folder, failed))
                        .generic_string();
  if (failed || name.empty() || name.starts_with("..")) return std::nullopt;
  return name;
}

/// A file that ends in .yml is passed over by the reader, and its author would never know.
void on_passed_over(const fs::path& folder, Faults& advice) {
  std::error_code failed;
  auto entries = fs::recursive_directory_iterator(folder, failed);
  for (const auto end = fs::recursive_directory_iterator(); !failed && entries != end;
       entries.increment(failed))
    if (lower(entries->path().extension().string()) == ".yml")
      advice.push_back(
          {Fault::bad_profile,
           "is not read",
           {.file = printable(entries->path().lexically_relative(folder).generic_string()),
            .line = {},
            .frame = {},
            .key = {}},
           "call it .yaml"});
}

/// A file that was asked about and is no business of the reader of profiles.
Faults not_among(const TaughtFiles& read, const std::set<std::string>& asked) {
  Faults out;
  for (const auto& name : asked) {
    const auto is_about = [&](const Error& error) { return error.where.file == name; };
    if (std::ranges::find(read.names, name) == read.names.end() &&
        std::ranges::none_of(read.faults, is_about))
      out.push_back({Fault::bad_profile,
                     "is not read as a profile",
                     {.file = name, .line = {}, .frame = {}, .key = {}},
                     "lint the folder for words, and rangecheck layouts FILE for point sets"});
  }
  return out;
}

}  // namespace

Lint lint(const fs::path& folder, const std::vector<fs::path>& files,
          const rangecheck::Words* words) {
  std::set<std::string> only;
  std::vector<OtherFile> others;
  for (const auto& file : files) {
    const auto inside = name_inside(folder, file);
    if (!inside) others.push_back({file, printable(file.string())});
    only.insert(inside ? *inside : others.back().name);
  }
  const TaughtFiles read = read_taught_files(folder, others);
  Lint out;
  std::set<std::string> told;
  const auto tell = [&](const Faults& found, bool refuses) {
    for (const auto& error : found)
      if ((only.empty() || only.contains(error.where.file)) && told.insert(to_string(error)).second)
        out.findings.push_back({error, refuses});
  };
  tell(read.faults, true);
  tell(not_among(read, only), true);
  // A file may be right by itself and not be read for another's fault.
  if (out.findings.empty() && !read.faults.empty()) out.findings.push_back({read.faults.front()});
  if (read.faults.empty()) {
    Faults advice = advice_on(read);
    on_passed_over(folder, advice);
    tell(advice, false);
    if (words) tell(untranslated(read, *words), false);
  }
  std::ranges::stable_sort(out.findings, {}, [](const Finding& finding) {
    const Place& place = finding.error.where;
    return std::tuple(!finding.refuses, place.file, place.line.value_or(0));
  });
  out.files = only.empty() ? read.parts.size() : only.size();
  out.profiles = static_cast<std::size_t>(
      std::ranges::count_if(read.set.profiles, [&](const Profile& profile) {
        if (only.empty()) return true;
        const auto part = std::ranges::find(read.parts, profile.id, &ProfilePart::id);
        return part != read.parts.end() && only.contains(part->place.file);
      }));
  return out;
}

}  // namespace rangecheck::grade
