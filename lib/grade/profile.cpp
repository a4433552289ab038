// SPDX-License-Identifier: MIT
#include "grade/profile.hpp"

#include <algorithm>

#include "base/digest.hpp"
#include "base/read_file.hpp"
#include "base/text.hpp"
#include "grade/profile_file.hpp"

namespace rangecheck::grade {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t largest_file = std::size_t{1} << 20;

/// A file of the folder, under the name that errors call it by.
struct Source {
  std::string name;  ///< relative to the folder, with '/'
  std::string text;
  YAML::Node document;
};

Result<std::vector<std::string>> yaml_files(const fs::path& folder) {
  std::error_code failed;
  std::vector<std::string> names;
  auto entries = fs::recursive_directory_iterator(folder, failed);
  for (const auto end = fs::recursive_directory_iterator(); !failed && entries != end;
       entries.increment(failed)) {
    const auto& path = entries->path();
    std::error_code unreadable;
    // Layouts say how landmark files are read and words how pages speak, not what is taught.
    const bool other_rooms = path == folder / "layouts" || path == folder / "words";
    if (path.filename().string().starts_with('.') || other_rooms) {
      if (entries->is_directory(unreadable)) entries.disable_recursion_pending();
    } else if (path.extension() == ".yaml" && entries->is_regular_file(unreadable)) {
      names.push_back(path.lexically_relative(folder).generic_string());
    }
  }
  if (failed)
    return Error{
        Fault::bad_profile,
        "the profiles folder can't be read: " + failed.message(),
        {.file = printable(folder.filename().string()), .line = {}, .frame = {}, .key = {}},
        "name a folder with --profiles"};
  std::ranges::sort(names);
  return names;
}

Result<std::vector<Source>> read_sources(const fs::path& folder) {
  const auto names = yaml_files(folder);
  if (!names) return names.error();
  std::vector<Source> sources;
  for (const auto& name : *names) {
    auto text = read_file(folder / name, name, largest_file);
    if (!text) return text.error();
    auto document = yaml::parse(*text, name);
    if (!document) return document.error();
    sources.push_back({name, std::move(*text), *document});
  }
  return sources;
}

bool is_student(const Source& source) { return source.name.starts_with("students/"); }

bool is_profile(const Source& source) {
  return source.name != "clubs.yaml" && source.name != "limits.yaml" &&
         source.name != "measures.yaml" && source.name != "filming.yaml" && !is_student(source);
}

std::optional<Error> read_clubs_of(const std::vector<Source>& sources, ProfileSet& set) {
  const auto clubs = std::ranges::find(sources, "clubs.yaml", &Source::name);
  if (clubs != sources.end()) return read_clubs(clubs->document, clubs->name, set);
  return Error{Fault::bad_profile,
               "is missing",
               {.file = "clubs.yaml", .line = {}, .frame = {}, .key = {}},
               "say there which club belongs to which family"};
}

std::optional<Error> read_own_measures_of(const std::vector<Source>& sources, ProfileSet& set) {
  const auto file = std::ranges::find(sources, "measures.yaml", &Source::name);
  if (file == sources.end()) return std::nullopt;
  auto own = read_own_measures(file->document, file->name);
  if (!own) return own.error();
  set.own_measures = std::move(*own);
  return std::nullopt;
}

/// Without a file of the coach's the shipped one counts, in the hash too.
std::optional<Error> read_filming_of(const std::vector<Source>& sources, ProfileSet& set,
                                     Digest& digest) {
  const auto file = std::ranges::find(sources, "filming.yaml", &Source::name);
  if (file == sources.end()) {
    set.filming = shipped_filming();
    digest.add(shipped_filming_text());
    return std::nullopt;
  }
  auto filming = read_filming(file->text, file->name);
  if (!filming) return filming.error();
  set.filming = std::move(*filming);
  return std::nullopt;
}

Known known_words(const std::vector<Source>& sources, const ProfileSet& set) {
  Known known;
  for (const auto& [club, family] : set.club_families)
    if (std::ranges::find(known.families, family) == known.families.end())
      known.families.push_back(family);
  for (const auto& measure : set.own_measures) known.own.push_back(&measure->rule());
  for (const auto& source : sources)
    if (is_profile(source)) collect_observations(source.document, known);
  return known;
}

std::optional<Error> read_changes_of(const Source& source, const Known& known, ProfileSet& set) {
  if (source.name == "limits.yaml") {
    auto limits = read_limits(source.document, source.name, known);
    if (!limits) return limits.error();
    set.limits = std::move(*limits);
  } else if (is_student(source)) {
    auto student = read_student(source.document, source.name, known);
    if (!student) return student.error();
    set.students[fs::path(source.name).stem().string()] = std::move(*student);
  }
  return std::nullopt;
}

Result<ProfileSet> load(const fs::path& folder) {
  const auto sources = read_sources(folder);
  if (!sources) return sources.error();
  ProfileSet set;
  if (auto error = read_clubs_of(*sources, set)) return *error;
  if (auto error = read_own_measures_of(*sources, set)) return *error;
  const Known known = known_words(*sources, set);
  Digest digest;
  if (auto error = read_filming_of(*sources, set, digest)) return *error;
  std::vector<ProfilePart> parts;
  for (const auto& source : *sources) {
    digest.add(source.name);
    digest.add(source.text);
    if (auto error = read_changes_of(source, known, set)) return *error;
    if (!is_profile(source)) continue;
    auto part = read_profile_part(source.document, source.name, known);
    if (!part) return part.error();
    parts.push_back(std::move(*part));
  }
  auto profiles = merge_profiles(parts, known);
  if (!profiles) return profiles.error();
  set.profiles = std::move(*profiles);
  set.hash = digest.hex();
  return set;
}

}  // namespace

Result<ProfileSet> load_profiles(const fs::path& folder) {
  auto set = load(folder);
  // Readers below speak of bad values; here every one of them is a fault of the coach's files.
  if (!set && set.error().fault != Fault::io) set.error().fault = Fault::bad_profile;
  return set;
}

}  // namespace rangecheck::grade
