// SPDX-License-Identifier: MIT
#include "inbox/gradings.hpp"

#include "base/read_file.hpp"
#include "base/text.hpp"
#include "history/readings.hpp"
#include "history/store.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;
using Records = std::vector<history::Record>;

bool is_folder(const fs::path& path) {
  std::error_code failed;
  return fs::is_directory(path, failed);
}

Result<Records> read_folder(const fs::path& folder) {
  const auto store = history::Store::open_existing(history_file(folder));
  if (!store) return store.error();
  const auto students = store->students();
  if (!students) return students.error();
  Records records;
  for (const auto& student : *students) {
    auto theirs = store->of_student(student);
    if (!theirs) return theirs.error();
    for (auto& dated : *theirs) records.push_back(std::move(dated.record));
  }
  return records;
}

Result<Records> read_table(const fs::path& path, const Records& known) {
  const std::string name = printable(path.filename().string());
  const auto text = read_file(path, name);
  if (!text) return text.error();
  return history::read_readings(*text, name, known);
}

}  // namespace

Result<Gradings> read_gradings(const fs::path& first, const fs::path& second) {
  // Folders go first: a table may name what only they know.
  Result<Records> one = is_folder(first) ? read_folder(first) : Records{};
  if (!one) return one.error();
  Result<Records> other = is_folder(second) ? read_folder(second) : Records{};
  if (!other) return other.error();
  if (!is_folder(first)) one = read_table(first, *other);
  if (!one) return one.error();
  if (!is_folder(second)) other = read_table(second, *one);
  if (!other) return other.error();
  return Gradings{std::move(*one), std::move(*other)};
}

}  // namespace rangecheck::inbox
