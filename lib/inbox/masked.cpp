// SPDX-License-Identifier: MIT
#include "inbox/masked.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <functional>
#include <system_error>
#include <vector>

#include "base/text.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view hidden = "…";

bool in_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || static_cast<unsigned char>(c) >= 0x80;
}

bool is_word_at(std::string_view text, std::size_t at, std::string_view word) {
  if (text.substr(at, word.size()) != word) return false;
  const std::size_t end = at + word.size();
  const bool begins = at == 0 || !in_word(text[at - 1]) || !in_word(word.front());
  return begins && (end == text.size() || !in_word(text[end]) || !in_word(word.back()));
}

/// From the first quotation mark to the last: what stands between may hold more of them.
std::string without_quotations(const std::string& text) {
  const auto first = text.find('"'), last = text.rfind('"');
  if (first == last) return text;
  return text.substr(0, first + 1) + std::string(hidden) + text.substr(last);
}

/// What names of files may say of films without telling who is on them.
constexpr std::array<std::string_view, 26> plain_words = {
    "face",   "on",   "down",  "the",  "line",   "dtl",   "json", "jsonl",    "csv",
    "gz",     "yaml", "club",  "ball", "points", "frame", "film", "video",    "submission",
    "frames", "full", "pitch", "chip", "bunker", "putt",  "iron", "landmarks"};

bool is_plain(std::string_view word) {
  return (word.size() == 1 && word[0] >= '0' && word[0] <= '9') ||
         std::ranges::find(plain_words, lower(word)) != plain_words.end();
}

std::string plain_path(std::string_view path) {
  std::string out;
  for (const auto part : split(path, '/')) out += (out.empty() ? "" : "/") + plain_file_name(part);
  return out;
}

/// The names of what lies in the submission, which remedies suggest.
void add_file_names(const intake::Location& location, Masks& masks) {
  const auto add = [&](const fs::path& path) {
    const std::string name = printable(path.filename().string());
    masks[name] = plain_file_name(name);
  };
  for (const auto& file : location.files) add(file);
  std::error_code failed;
  if (location.folder.empty() || fs::is_symlink(location.folder, failed)) return;
  fs::recursive_directory_iterator entries(location.folder, failed);
  for (; !failed && entries != fs::recursive_directory_iterator(); entries.increment(failed))
    add(entries->path());
}

/// The place as messages name it: inside the submission, or a loose file's.
std::string masked_file(const std::string& file, const intake::Location& location,
                        const std::string& pseudonym, const Masks& masks) {
  const std::string own = printable(location.id);
  if (file.empty() || file == own) return file.empty() ? file : pseudonym;
  if (!location.folder.empty() && file.starts_with(own + '/'))
    return pseudonym + '/' + plain_path(std::string_view(file).substr(own.size() + 1));
  return masked(file, masks);
}

/// Where in a file something is, in the program's words.
std::string masked_key(const Error& error, const Masks& masks) {
  const std::string& key = error.where.key;
  // A pointer into landmarks may go through names of pictures.
  if (key.starts_with('/')) return "";
  // A key of a manifest that is none, or is there twice, may be anything.
  const bool anything =
      error.what == "there is no such key" || error.what == "this key stands here twice";
  if (anything) return key.substr(0, key.rfind('.') + 1) + std::string(hidden);
  return masked(key, masks);
}

}  // namespace

std::string masked(std::string_view text, const Masks& masks) {
  std::vector<const Masks::value_type*> longest_first;
  for (const auto& mask : masks)
    if (!mask.first.empty()) longest_first.push_back(&mask);
  std::ranges::stable_sort(longest_first, std::greater<>(),
                           [](const auto* mask) { return mask->first.size(); });
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const auto found = std::ranges::find_if(
        longest_first, [&](const auto* mask) { return is_word_at(text, at, mask->first); });
    if (found == longest_first.end()) {
      out += text[at++];
      continue;
    }
    out += (*found)->second;
    at += (*found)->first.size();
  }
  return out;
}

Message masked(Message message, const Masks& masks) {
  for (auto& argument : message.arguments) {
    if (auto* text = std::get_if<std::string>(&argument.value)) *text = masked(*text, masks);
    if (auto* within = std::get_if<std::vector<Message>>(&argument.value))
      for (auto& each : *within) each = masked(std::move(each), masks);
  }
  return message;
}

std::string plain_file_name(std::string_view name) {
  std::string out;
  for (std::size_t at = 0; at < name.size();) {
    std::size_t end = at;
    while (end < name.size() && in_word(name[end])) ++end;
    if (end == at) {
      out += name[at++];
      continue;
    }
    const auto word = name.substr(at, end - at);
    out += is_plain(word) ? word : hidden;
    at = end;
  }
  return out;
}

Error masked(Error error, const intake::Location& location, const std::string& pseudonym,
             const Masks& masks) {
  Masks all = masks;
  add_file_names(location, all);
  all[printable(location.id)] = pseudonym;
  error.where.key = masked_key(error, all);
  error.what = masked(without_quotations(error.what), all);
  error.remedy = masked(without_quotations(error.remedy), all);
  error.where.file = masked_file(error.where.file, location, pseudonym, all);
  return error;
}

}  // namespace rangecheck::inbox
