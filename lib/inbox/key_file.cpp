// SPDX-License-Identifier: MIT
#include "inbox/key_file.hpp"

#include <fmt/format.h>
#include <sys/random.h>

#include <array>
#include <optional>
#include <system_error>

#include "base/folder_lock.hpp"
#include "base/read_file.hpp"
#include "base/text.hpp"
#include "inbox/folders.hpp"
#include "intake/rows.hpp"
#include "intake/submission.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view header = "kind,id,pseudonym";
constexpr std::string_view consonants = "bcdfghjkmnpqrstvwxz", digits = "23456789";

/// 19·8·19·8·19 = 438,976 students; each two places more are 152 times as many.
constexpr std::size_t places_of(Named kind) { return kind == Named::student ? 5 : 7; }
constexpr std::string_view word_of(Named kind) {
  return kind == Named::student ? "student" : "submission";
}

std::string_view alphabet_at(std::size_t place) { return place % 2 == 0 ? consonants : digits; }

/// One of `letters`, each as likely; nothing when the system has no random bytes.
std::optional<char> drawn_from(std::string_view letters) {
  const std::size_t fair = 256 - 256 % letters.size();
  unsigned char byte = 0;
  do {
    if (::getrandom(&byte, 1, 0) != 1) return std::nullopt;
  } while (byte >= fair);
  return letters[byte % letters.size()];
}

/// Folders may have any name. One that can't be an id is written in hexadecimal, so that no two
/// look alike and no spreadsheet runs it; "#" begins no id.
std::string written_id(const std::string& id) {
  if (!intake::why_unsafe(id)) return id;
  std::string text = "#";
  for (const char c : id) text += fmt::format("{:02x}", static_cast<unsigned char>(c));
  return text;
}

Error damaged(const fs::path& file, std::optional<int> line, std::string what) {
  Error error{Fault::bad_value, std::move(what), {}, "restore it from a copy"};
  error.where.file = printable(file.filename().string());
  error.where.line = line;
  return error;
}

std::optional<Named> kind_named(std::string_view word) {
  for (const auto kind : {Named::student, Named::submission})
    if (word == word_of(kind)) return kind;
  return std::nullopt;
}

Result<Nothing> refuse_readers(const fs::path& file) {
  std::error_code failed;
  const auto mode = fs::status(file, failed).permissions();
  if (failed || (mode & (fs::perms::group_all | fs::perms::others_all)) == fs::perms::none)
    return Nothing{};
  return error_at(Fault::bad_value, "others may read this key of the pseudonyms", file,
                  "give it mode 0600");
}

}  // namespace

Result<KeyFile> KeyFile::read(const fs::path& file) {
  KeyFile key(file);
  if (auto refused = refuse_link(file); !refused) return refused.error();
  std::error_code failed;
  if (!fs::exists(file, failed)) return key;
  if (auto refused = refuse_readers(file); !refused) return refused.error();
  const std::string name = printable(file.filename().string());
  auto text = read_file(file, name);
  if (!text) return text.error();
  if (!text->starts_with(header)) return damaged(file, 1, "is no key of pseudonyms");
  intake::RowReader rows(*text, name);
  for (bool first = true;; first = false) {
    auto row = rows.next();
    if (!row) return row.error();
    if (!*row) return key;
    if (first) continue;
    const auto& cells = (*row)->cells;
    const auto kind = cells.size() == 3 ? kind_named(cells[0]) : std::nullopt;
    if (!kind || !key.add({*kind, cells[1]}, std::string(trim(cells[2]))))
      return damaged(file, (*row)->line, "is no line of a key, or is there twice");
  }
}

fs::path KeyFile::folder() const {
  return file_.has_parent_path() ? file_.parent_path() : fs::path(".");
}

bool KeyFile::add(const Whom& whom, const std::string& pseudonym) {
  if (!looks_like_pseudonym(pseudonym, whom.kind) || !given_.insert(pseudonym).second) return false;
  ids_.insert(whom.id);
  return pseudonyms_.emplace(whom, pseudonym).second;
}

Result<Nothing> KeyFile::write() const {
  std::string text = std::string(header) + "\n";
  for (const auto& [whom, pseudonym] : pseudonyms_)
    text += fmt::format("{},{},{}\n", word_of(whom.kind), report::csv_cell(whom.id), pseudonym);
  return publish(file_, text);
}

Result<std::string> KeyFile::draw(Named kind) const {
  while (true) {
    std::string drawn = std::string(word_of(kind)) + '-';
    for (std::size_t place = 0; place < places_of(kind); ++place) {
      const auto letter = drawn_from(alphabet_at(place));
      if (!letter)
        return Error{Fault::io, "the system gives no random numbers for pseudonyms", {}, ""};
      drawn += *letter;
    }
    if (!given_.contains(drawn) && !ids_.contains(drawn)) return drawn;
  }
}

Result<Nothing> KeyFile::issue(std::span<const Whom> whom) {
  if (auto made = make_private_folders(folder()); !made) return made;
  const auto lock = FolderLock::wait(folder());
  if (!lock) return lock.error();
  remove_leftovers(folder());
  auto now = read(file_);
  if (!now) return now.error();
  *this = *std::move(now);
  bool changed = false;
  for (const auto& one : whom) {
    if (!of(one).empty()) continue;
    const auto pseudonym = draw(one.kind);
    if (!pseudonym) return pseudonym.error();
    changed |= add({one.kind, written_id(one.id)}, *pseudonym);
  }
  return changed ? write() : Result<Nothing>(Nothing{});
}

Result<std::size_t> KeyFile::strike(const std::set<std::string>& pseudonyms) {
  const auto lock = FolderLock::wait(folder());
  if (!lock) return lock.error();
  remove_leftovers(folder());
  auto now = read(file_);
  if (!now) return now.error();
  *this = *std::move(now);
  const std::size_t struck = std::erase_if(
      pseudonyms_, [&](const auto& entry) { return pseudonyms.contains(entry.second); });
  if (struck == 0) return struck;
  if (auto written = write(); !written) return written.error();
  for (const auto& pseudonym : pseudonyms) given_.erase(pseudonym);
  return struck;
}

std::string KeyFile::of(const Whom& whom) const {
  const auto found = pseudonyms_.find({whom.kind, written_id(whom.id)});
  return found == pseudonyms_.end() ? "" : found->second;
}

bool looks_like_pseudonym(std::string_view id, Named kind) {
  if (!id.starts_with(word_of(kind))) return false;
  id.remove_prefix(word_of(kind).size());
  if (id.size() != places_of(kind) + 1 || id.front() != '-') return false;
  for (std::size_t place = 0; place < places_of(kind); ++place)
    if (alphabet_at(place).find(id[place + 1]) == std::string_view::npos) return false;
  return true;
}

}  // namespace rangecheck::inbox
