// SPDX-License-Identifier: MIT
#include "inbox/traces.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <system_error>

#include "base/read_file.hpp"
#include "inbox/folders.hpp"
#include "inbox/student_rows.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

/// What is in `folder`, in order of name; nothing when it is not there.
Result<std::vector<fs::path>> entries_of(const fs::path& folder) {
  std::vector<fs::path> entries;
  if (auto refused = refuse_link(folder); !refused) return refused.error();
  std::error_code failed;
  if (!fs::exists(folder, failed)) return entries;
  fs::directory_iterator each(folder, failed);
  for (; !failed && each != fs::directory_iterator(); each.increment(failed))
    entries.push_back(each->path());
  if (failed) return error_at(Fault::io, "can't be read: " + failed.message(), folder, "");
  std::ranges::sort(entries);
  return entries;
}

/// The text of a file that is no link and no folder; nothing otherwise.
std::optional<std::string> text_of(const fs::path& file) {
  std::error_code ignored;
  if (!fs::is_regular_file(fs::symlink_status(file, ignored))) return std::nullopt;
  auto text = read_file(file, file.filename().string());
  if (!text) return std::nullopt;
  return *std::move(text);
}

class Search {
 public:
  Search(const std::string& student, const fs::path& out) : student_(student), out_(out) {}

  Result<Nothing> history(const history::Store& store) {
    const auto count = store.count_of(student_);
    if (!count) return count.error();
    found_.grades = *count;
    const auto theirs = store.submissions_of(student_);
    if (!theirs) return theirs.error();
    by_history_.insert(theirs->begin(), theirs->end());
    found_.submissions = by_history_;
    const auto students = store.students();
    if (!students) return students.error();
    for (const auto& id : *students) note_student(id);
    return Nothing{};
  }

  Result<Nothing> reports() {
    const auto entries = entries_of(out_ / "students");
    if (!entries) return entries.error();
    for (const auto& path : *entries) {
      if (is_unpublished(path)) continue;
      const auto text = text_of(path / "result.json");
      const auto owner = text ? report::student_of_result(*text) : std::nullopt;
      if (owner) note_student(*owner);
      std::error_code ignored;
      if (!owner && fs::exists(path / "result.json", ignored) && !given_before(path.filename()))
        found_.doubtful.push_back(path / "result.json");
      if (owner ? *owner != student_ : !given_before(path.filename())) continue;
      if (auto added = add_folder(path); !added) return added;
    }
    return Nothing{};
  }

  Result<Nothing> set_aside() {
    const auto entries = entries_of(out_ / "set-aside");
    if (!entries) return entries.error();
    for (const auto& path : *entries) {
      if (is_unpublished(path)) found_.leftovers.push_back(path);
      if (path.extension() != ".txt") continue;
      const auto text = text_of(path);
      const auto owner = text ? report::student_of_set_aside(*text) : std::nullopt;
      if (owner) note_student(*owner);
      const std::string id = path.stem().string();
      if (owner ? *owner == student_ : found_.submissions.contains(id)) {
        found_.submissions.insert(id);
        found_.set_aside.push_back(path);
      } else if (!owner && names_student(id, text.value_or(""))) {
        found_.doubtful.push_back(path);
      }
    }
    return Nothing{};
  }

  Result<Nothing> tables() {
    for (const auto* name : {"checks.csv", "submissions.csv"}) {
      const fs::path file = out_ / name;
      if (auto refused = refuse_link(file); !refused) return refused;
      std::error_code ignored;
      if (!fs::exists(file, ignored)) continue;
      const auto text = text_of(file);
      auto cut = text ? without_rows_of(student_, *text) : std::nullopt;
      if (!cut) {
        found_.whole.push_back(file);
        continue;
      }
      for (const auto& id : cut->students) note_student(id);
      if (cut->removed > 0) found_.tables.push_back({file, std::move(cut->rest), cut->removed});
    }
    for (const auto* name : {"coach.html", "rangecheck.xlsx"})
      add_if_there(out_ / name, found_.whole);
    return Nothing{};
  }

  Result<Nothing> leftovers() {
    for (const auto& folder : {out_, out_ / "students"}) {
      const auto entries = entries_of(folder);
      if (!entries) return entries.error();
      for (const auto& path : *entries)
        if (is_unpublished(path)) found_.leftovers.push_back(path);
    }
    // A log that lost its history holds grades still, and is read by nothing.
    std::error_code ignored;
    if (fs::exists(out_ / "history.sqlite", ignored)) return Nothing{};
    for (const auto* name : {"history.sqlite-wal", "history.sqlite-shm"})
      add_if_there(out_ / name, found_.leftovers);
    return Nothing{};
  }

  Traces found() && { return std::move(found_); }

 private:
  bool given_before(const fs::path& id) const { return by_history_.contains(id.string()); }

  void note_student(const std::string& id) {
    if (id != student_) found_.others.insert(id);
  }

  static void add_if_there(const fs::path& path, std::vector<fs::path>& paths) {
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(path, ignored))) paths.push_back(path);
  }

  /// Runs that could not read a manifest did not know whose it is.
  bool names_student(std::string_view id, std::string_view text) const {
    const bool begins = id.starts_with(student_) &&
                        (id.size() == student_.size() ||
                         std::string_view(" _-.,").find(id[student_.size()]) != id.npos);
    return begins || text.find('"' + student_ + '"') != text.npos;
  }

  Result<Nothing> add_folder(const fs::path& path) {
    const auto entries = entries_of(path);
    if (!entries) return entries.error();
    Traces::Folder folder{path, {}, {}};
    for (const auto& entry : *entries) {
      const bool ours = std::ranges::find(report_files, entry.filename()) != report_files.end();
      if (is_unpublished(entry))
        folder.files.push_back(entry);
      else if (!ours)
        folder.foreign.push_back(entry);
    }
    for (const auto name : report_files) add_if_there(path / name, folder.files);
    found_.submissions.insert(path.filename().string());
    found_.folders.push_back(std::move(folder));
    return Nothing{};
  }

  const std::string& student_;
  fs::path out_;
  std::set<std::string> by_history_;
  Traces found_;
};

}  // namespace

bool Traces::any() const {
  return grades > 0 || !folders.empty() || !set_aside.empty() || !tables.empty() ||
         !doubtful.empty();
}

Result<Traces> traces_of(const std::string& student, const fs::path& out,
                         const history::Store* store) {
  Search search(student, out);
  auto looked = store ? search.history(*store) : Result<Nothing>(Nothing{});
  if (looked) looked = search.reports();
  if (looked) looked = search.set_aside();
  if (looked) looked = search.tables();
  if (looked) looked = search.leftovers();
  if (!looked) return looked.error();
  return std::move(search).found();
}

}  // namespace rangecheck::inbox
