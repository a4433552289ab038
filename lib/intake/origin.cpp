// SPDX-License-Identifier: MIT
#include "intake/origin.hpp"

#include <system_error>

#include "intake/errors.hpp"
#include "intake/loose_name.hpp"

namespace rangecheck::intake {
namespace {

namespace fs = std::filesystem;

/// What the names of files say, in the form of a manifest.
Result<Manifest> manifest_from_names(const std::vector<std::string>& names, const Origin& origin) {
  Manifest manifest;
  std::string stem;
  for (const auto& name : names) {
    const auto parsed = parse_loose_name(name);
    const Place place = file_place(origin.name_of(name));
    if (!parsed) {
      return error_at(
          place, "isn't named STUDENT_CLUB_SWING_VIEW.json",
          "VIEW is face-on or down-the-line, SWING is full, pitch, chip, bunker or putt");
    }
    if (const auto why = why_unsafe(parsed->student)) {
      return error_at(place,
                      rangecheck::quoted(parsed->student) + " can't be a student's id: it " + *why);
    }
    if (!stem.empty() && stem != parsed->stem) {
      return error_at(place, "belongs to another submission than the files beside it",
                      "keep each submission in a folder of its own");
    }
    stem = parsed->stem;
    for (const auto& view : manifest.views) {
      if (view.view != parsed->view) continue;
      return error_at(place, "is a second film of the same view", "keep one of the two");
    }
    manifest.student = parsed->student;
    manifest.student_place = place;
    manifest.club = parsed->club;
    manifest.swing = parsed->swing;
    ManifestView view;
    view.view = parsed->view;
    view.landmarks = {name};
    view.landmarks_place = place;
    manifest.views.push_back(std::move(view));
  }
  return manifest;
}

}  // namespace

std::optional<std::string> why_foreign(const std::string& written) {
  const fs::path path(written);
  if (written.empty() || written.find('\0') != std::string::npos) return "is no path";
  if (path.is_absolute()) return "has to be a path inside the submission's folder";
  for (const auto& part : path) {
    if (part == "..") return "leads out of the submission's folder";
  }
  return std::nullopt;
}

std::vector<std::string> films_in(const Origin& origin) {
  std::vector<std::string> films;
  const auto names = origin.files->names_in("", origin.name);
  if (!names) return films;
  for (const auto& name : *names) {
    if (!name.starts_with('.') && is_landmark_name(name)) films.push_back(name);
  }
  return films;
}

FolderFiles files_of(const Location& location) {
  const bool loose = location.folder.empty() && !location.files.empty();
  return {loose ? location.files.front().parent_path() : location.folder,
          FolderFiles::Links::stay_inside};
}

Result<Origin> origin_of(const Location& location) {
  const bool loose = location.folder.empty();
  Origin origin;
  origin.id = location.id;
  origin.name = printable(location.folder.filename().string());
  const std::string shown = loose ? printable(location.id) : origin.name;
  if (const auto why = why_unsafe(location.id)) {
    return error_at(
        file_place(shown),
        rangecheck::quoted(location.id) + " can't be the name of a submission: it " + *why,
        "rename it");
  }
  std::error_code ignored;
  if (!loose && fs::is_symlink(location.folder, ignored)) {
    return error_at(file_place(shown), "is a link", "move the folder itself into the inbox");
  }
  origin.files = std::make_shared<FolderFiles>(files_of(location));
  for (const auto& file : location.files) origin.loose.push_back(file.filename().string());
  return origin;
}

Origin origin_of(const Record& record) {
  Origin origin;
  origin.id = record.id;
  origin.files = std::make_shared<CarriedFiles>(record.files);
  if (!record.loose) origin.name = printable(record.id);
  if (record.loose)
    for (const auto& [name, content] : record.files) origin.loose.push_back(name);
  return origin;
}

Result<Manifest> manifest_of(const Origin& origin) {
  if (!origin.loose.empty()) return manifest_from_names(origin.loose, origin);
  if (origin.files->has(manifest_name)) {
    const std::string name = origin.name_of(manifest_name);
    const auto text = origin.files->read(manifest_name, name, largest_manifest);
    if (!text) return text.error();
    return read_manifest(*text, name);
  }
  const auto films = films_in(origin);
  if (films.empty()) {
    return error_at(file_place(origin.name),
                    "holds neither submission.yaml nor files named STUDENT_CLUB_SWING_VIEW.json");
  }
  return manifest_from_names(films, origin);
}

}  // namespace rangecheck::intake
