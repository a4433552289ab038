// SPDX-License-Identifier: MIT
#include <minizip/unzip.h>

#include <array>
#include <map>
#include <optional>

#include "report/xlsx.hpp"

namespace rangecheck::report {
namespace {

/// Follows the tags of an XML document, piece by piece. Text is no concern of it, since "<" and ">"
/// stand in no text that the library writes.
class Tags {
 public:
  void read(std::string_view piece) {
    for (const char c : piece) read(c);
  }
  /// Every element that was begun has been ended, and there was one.
  bool balanced() const { return began_ > 0 && depth_ == 0 && !inside_; }
  std::size_t cells() const { return cells_; }

 private:
  void read(char c) {
    if (c == '<') {
      inside_ = true;
      tag_.clear();
      last_ = '\0';
      return;
    }
    if (!inside_) return;
    if (c == '>') return end_tag();
    if (tag_.size() < 2) tag_ += c;
    last_ = c;
  }
  void end_tag() {
    inside_ = false;
    if (tag_.empty() || tag_[0] == '?') return;
    if (tag_[0] == '/') {
      --depth_;
      return;
    }
    ++began_;
    if (tag_ == "c ") ++cells_;
    if (last_ != '/') ++depth_;
  }

  bool inside_ = false;
  std::string tag_;  ///< its first two characters
  char last_ = '\0';
  long depth_ = 0;
  std::size_t began_ = 0, cells_ = 0;
};

/// The document that `zip` stands at; nothing where it can't be read or its checksum is wrong.
std::optional<Tags> read_document(unzFile zip) {
  if (unzOpenCurrentFile(zip) != UNZ_OK) return std::nullopt;
  Tags tags;
  std::array<char, 1 << 16> piece;
  int got = 0;
  while ((got = unzReadCurrentFile(zip, piece.data(), piece.size())) > 0)
    tags.read({piece.data(), static_cast<std::size_t>(got)});
  if (unzCloseCurrentFile(zip) != UNZ_OK || got < 0) return std::nullopt;
  return tags;
}

/// Name of the part of the zip that `zip` stands at; "" where it is longer than any of ours.
std::string name_of_part(unzFile zip) {
  std::array<char, 100> name{};
  const int told =
      unzGetCurrentFileInfo64(zip, nullptr, name.data(), name.size() - 1, nullptr, 0, nullptr, 0);
  return told == UNZ_OK ? name.data() : "";
}

bool documents_are_whole(unzFile zip, const std::vector<std::size_t>& cells) {
  std::map<std::string, std::size_t> sheets;
  for (std::size_t i = 0; i < cells.size(); ++i)
    sheets["xl/worksheets/sheet" + std::to_string(i + 1) + ".xml"] = cells[i];
  int next = unzGoToFirstFile(zip);
  for (; next == UNZ_OK; next = unzGoToNextFile(zip)) {
    const auto document = read_document(zip);
    if (!document || !document->balanced()) return false;
    const auto sheet = sheets.find(name_of_part(zip));
    if (sheet == sheets.end()) continue;
    if (document->cells() != sheet->second) return false;
    sheets.erase(sheet);
  }
  return next == UNZ_END_OF_LIST_OF_FILE && sheets.empty();
}

}  // namespace

bool is_whole(const std::filesystem::path& file, const std::vector<std::size_t>& cells) {
  const unzFile zip = unzOpen64(file.c_str());
  if (!zip) return false;
  const bool whole = documents_are_whole(zip, cells);
  unzClose(zip);
  return whole;
}

}  // namespace rangecheck::report
