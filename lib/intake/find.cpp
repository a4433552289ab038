// SPDX-License-Identifier: MIT
#include <algorithm>
#include <set>
#include <system_error>

#include "base/text.hpp"
#include "intake/loose_name.hpp"
#include "intake/manifest.hpp"

namespace rangecheck::intake {
namespace {

namespace fs = std::filesystem;

/// The name without .json, .jsonl or .csv and .gz; nothing when it has none of the first three.
std::optional<std::string_view> landmark_stem(std::string_view name) {
  if (name.ends_with(".gz")) name.remove_suffix(3);
  for (const std::string_view ending : {".json", ".jsonl", ".csv"}) {
    if (name.ends_with(ending)) return name.substr(0, name.size() - ending.size());
  }
  return std::nullopt;
}

}  // namespace

bool is_landmark_name(std::string_view file_name) {
  const bool is_table = file_name.ends_with(".csv") || file_name.ends_with(".csv.gz");
  return is_table ? parse_loose_name(file_name).has_value() : landmark_stem(file_name).has_value();
}

std::optional<LooseName> parse_loose_name(std::string_view file_name) {
  const auto stem = landmark_stem(file_name);
  if (!stem) return std::nullopt;
  const auto parts = split(*stem, '_');
  if (parts.size() < 4) return std::nullopt;
  const auto view = find_view(lower(parts.back()));
  const std::string swing = lower(parts[parts.size() - 2]);
  const std::string_view club = parts[parts.size() - 3];
  if (!view || !is_swing(swing) || club.empty()) return std::nullopt;
  LooseName name;
  name.stem = stem->substr(0, stem->size() - parts.back().size() - 1);
  const std::size_t tail = club.size() + swing.size() + 2;
  name.student = name.stem.substr(0, name.stem.size() - tail);
  name.club = club;
  name.swing = swing;
  name.view = *view;
  return name;
}

Result<std::vector<Location>> find_submissions(const fs::path& inbox) {
  std::map<std::string, Location> found;
  std::vector<Location> loose;
  std::error_code failed;
  fs::directory_iterator entries(inbox, failed);
  for (; !failed && entries != fs::directory_iterator(); entries.increment(failed)) {
    const std::string name = entries->path().filename().string();
    if (name.starts_with('.')) continue;
    std::error_code ignored;
    if (entries->is_directory(ignored)) {
      found[name] = {name, {}, entries->path()};
    } else if (is_landmark_name(name)) {
      // A name of another form is kept too, so that reading it can say what is wrong.
      const auto parsed = parse_loose_name(name);
      const std::string stem = parsed ? parsed->stem : std::string(*landmark_stem(name));
      loose.push_back({stem, {entries->path()}, {}});
    }
  }
  if (failed) {
    return Error{Fault::io, "can't read the inbox: " + failed.message(), {}, "check its path"};
  }
  for (const Location& one : loose) {
    // A folder may have the same name; two submissions must not share an id.
    std::string id = one.id;
    while (found.contains(id) && !found[id].folder.empty()) id += "-files";
    Location& location = found[id];
    location.id = id;
    location.files.push_back(one.files.front());
  }
  std::vector<Location> locations;
  for (auto& [id, location] : found) {
    std::sort(location.files.begin(), location.files.end());
    locations.push_back(std::move(location));
  }
  return locations;
}

}  // namespace rangecheck::intake
