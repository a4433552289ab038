// SPDX-License-Identifier: MIT
#include "grade/profile.hpp"

#include <algorithm>

#include "base/digest.hpp"
#include "base/read_file.hpp"
#include "base/text.hpp"
#include "grade/profile_file.hpp"
#include "grade/taught_files.hpp"

namespace rangecheck::grade {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t largest_file = std::size_t{1} << 20;

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

Result<Source> read_source(const fs::path& path, const std::string& name) {
  auto text = read_file(path, name, largest_file);
  if (!text) return text.error();
  auto document = yaml::parse(*text, name);
  if (!document) return document.error();
  return Source{name, std::move(*text), *document};
}

/// Those that can be read.
std::vector<Source> read_sources(const fs::path& folder, std::span<const OtherFile> others,
                                 Faults& faults) {
  std::vector<Source> sources;
  const auto add = [&](const fs::path& path, const std::string& name) {
    auto source = read_source(path, name);
    if (source)
      sources.push_back(std::move(*source));
    else
      faults.push_back(source.error());
  };
  const auto names = yaml_files(folder);
  if (!names) faults.push_back(names.error());
  if (names)
    for (const auto& name : *names) add(folder / name, name);
  for (const auto& other : others) add(other.path, other.name);
  return sources;
}

bool is_student(const Source& source) { return source.name.starts_with("students/"); }

bool is_profile(const Source& source) {
  return source.name != "clubs.yaml" && source.name != "limits.yaml" &&
         source.name != "measures.yaml" && source.name != "filming.yaml" && !is_student(source);
}

bool is_faulty(std::string_view file, const Faults& faults) {
  return std::ranges::any_of(faults, [&](const Error& one) { return one.where.file == file; });
}

void read_clubs_of(const std::vector<Source>& sources, ProfileSet& set, Faults& faults) {
  const auto clubs = std::ranges::find(sources, "clubs.yaml", &Source::name);
  if (clubs != sources.end()) return read_clubs(clubs->document, clubs->name, set, faults);
  if (is_faulty("clubs.yaml", faults)) return;  // it is there, but can't be read
  faults.push_back({Fault::bad_profile,
                    "is missing",
                    {.file = "clubs.yaml", .line = {}, .frame = {}, .key = {}},
                    "say there which club belongs to which family"});
}

void read_own_measures_of(const std::vector<Source>& sources, ProfileSet& set, Faults& faults) {
  const auto file = std::ranges::find(sources, "measures.yaml", &Source::name);
  if (file != sources.end())
    set.own_measures = read_own_measures(file->document, file->name, faults);
}

/// Without a file of the coach's the shipped one counts, in the hash too.
void read_filming_of(const std::vector<Source>& sources, ProfileSet& set, Digest& digest,
                     Faults& faults) {
  const auto file = std::ranges::find(sources, "filming.yaml", &Source::name);
  if (file != sources.end()) {
    set.filming = read_filming(file->text, file->name, faults);
  } else {
    set.filming = shipped_filming();
    digest.add(shipped_filming_text());
  }
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

void read_changes_of(const Source& source, const Known& known, ProfileSet& set, Faults& faults) {
  if (source.name == "limits.yaml")
    set.limits = read_limits(source.document, source.name, known, faults);
  else if (is_student(source))
    set.students[fs::path(source.name).stem().string()] =
        read_student(source.document, source.name, known, faults);
}

TaughtFiles read_files(const fs::path& folder, std::span<const OtherFile> others) {
  TaughtFiles out;
  Faults& faults = out.faults;
  ProfileSet& set = out.set;
  const auto sources = read_sources(folder, others, faults);
  const bool all_read = faults.empty();
  for (const auto& source : sources) out.names.push_back(source.name);
  read_clubs_of(sources, set, faults);
  read_own_measures_of(sources, set, faults);
  const bool words_known = !is_faulty("clubs.yaml", faults) && !is_faulty("measures.yaml", faults);
  Digest digest;
  read_filming_of(sources, set, digest, faults);
  if (!words_known) return out;  // every word that profiles have from there would be a fault
  out.known = known_words(sources, set);
  for (const auto& source : sources) {
    digest.add(source.name);
    digest.add(source.text);
    read_changes_of(source, out.known, set, faults);
    if (is_profile(source))
      out.parts.push_back(read_profile_part(source.document, source.name, out.known, faults));
  }
  // What extends a file that could not be read can't be put together.
  const bool has_ids = std::ranges::none_of(out.parts, &std::string::empty, &ProfilePart::id);
  if (all_read && has_ids) {
    out.merged = merge_parts(out.parts, out.known, faults);
    set.profiles = complete_profiles(out.merged, faults);
  }
  set.hash = digest.hex();
  return out;
}

}  // namespace

TaughtFiles read_taught_files(const fs::path& folder, std::span<const OtherFile> others) {
  TaughtFiles files = read_files(folder, others);
  // Readers below speak of bad values; here every one of them is a fault of the coach's files.
  for (auto& error : files.faults)
    if (error.fault != Fault::io) error.fault = Fault::bad_profile;
  return files;
}

Result<ProfileSet> load_profiles(const fs::path& folder) {
  auto files = read_taught_files(folder);
  if (!files.faults.empty()) return files.faults.front();
  return std::move(files.set);
}

}  // namespace rangecheck::grade
