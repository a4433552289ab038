// SPDX-License-Identifier: MIT
#include "intake/landmark_files.hpp"
#include "intake/origin.hpp"

namespace rangecheck::intake {
namespace {

/// As reading a file would fail, but without its place: a record may call it by another name.
Error unplaced(Error error) {
  error.where = {};
  return error;
}

class Packing {
 public:
  Packing(const Origin& origin, FolderFiles files) : origin_(origin), files_(std::move(files)) {}

  /// What is in the folder, by name.
  void add_names() {
    const auto names = files_.names_in("", origin_.name);
    if (!names) return;
    for (const auto& name : *names)
      contents_.emplace(files_.is_folder(name) ? name + '/' : name, std::nullopt);
  }

  /// The bytes of a file, of which `left` may still be read.
  void add_file(const std::string& path, const std::string& name, std::size_t& left) {
    auto bytes = files_.bytes(path, name, left);
    left -= bytes ? bytes->size() : 0;
    contents_[plain_path(path)] =
        bytes ? std::move(bytes) : Result<std::string>(unplaced(std::move(bytes.error())));
  }

  /// What a manifest names: a film, or a folder of one.
  void add_film(const std::string& written) {
    if (why_foreign(written) || !files_.has(written)) return;
    const std::string path = plain_path(written);
    const auto found = landmark_files_at(files_, path, origin_.name_of(written));
    if (!found) {
      if (!path.empty()) contents_[path] = unplaced(found.error());
      return;
    }
    std::size_t left = largest_film;
    for (const auto& file : *found) add_file(file.path, file.name, left);
  }

  Contents taken() { return std::move(contents_); }

 private:
  const Origin& origin_;
  FolderFiles files_;
  Contents contents_;
};

}  // namespace

Result<Record> pack(const Location& location) {
  const auto origin = origin_of(location);
  if (!origin) return origin.error();
  Packing packing(*origin, files_of(location));
  const bool loose = !origin->loose.empty();
  for (const auto& name : origin->loose) packing.add_film(name);
  if (!loose) packing.add_names();
  if (!loose && origin->files->has(manifest_name)) {
    std::size_t left = largest_manifest;
    packing.add_file(manifest_name, origin->name_of(manifest_name), left);
  }
  // A manifest that can't be read is in the record as it is: whoever reads that says why.
  if (const auto manifest = manifest_of(*origin)) {
    for (const auto& view : manifest->views) {
      for (const auto& written : view.landmarks) packing.add_film(written);
      for (const auto& written : view.club_points) packing.add_film(written);
    }
  }
  return Record{.id = origin->id, .loose = loose, .files = packing.taken(), .earlier = {}};
}

}  // namespace rangecheck::intake
