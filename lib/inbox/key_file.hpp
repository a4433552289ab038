// SPDX-License-Identifier: MIT
// The one file that knows whose a pseudonym is: CSV with the columns kind, id and pseudonym,
// readable by its owner only. It belongs to the coach and lies neither in the inbox nor in the
// output folder.
#pragma once

#include <filesystem>
#include <map>
#include <set>
#include <span>
#include <string>

#include "base/publish.hpp"

namespace rangecheck::inbox {

enum class Named { student, submission };

class KeyFile {
 public:
  struct Whom {
    Named kind;
    std::string id;
    auto operator<=>(const Whom&) const = default;
  };

  /// Reads `file`, which need not be there yet. Fault::bad_value when it is no key file, is damaged
  /// or may be read by others: a run without it would give everyone new pseudonyms.
  static Result<KeyFile> read(const std::filesystem::path& file);

  /// Gives a pseudonym to each of `whom` that has none, and makes the file last before it returns.
  /// Pseudonyms are drawn by lot from what the system holds to be random, never made from the id,
  /// and given once. Several programs may use one file: each reads again what others have written.
  Result<Nothing> issue(std::span<const Whom> whom);

  /// Takes out these pseudonyms; how many of them there were.
  Result<std::size_t> strike(const std::set<std::string>& pseudonyms);

  /// "" where there is none.
  std::string of(const Whom& whom) const;
  bool knows(const std::string& pseudonym) const { return given_.contains(pseudonym); }
  const std::map<Whom, std::string>& all() const { return pseudonyms_; }

 private:
  explicit KeyFile(std::filesystem::path file) : file_(std::move(file)) {}
  Result<Nothing> write() const;
  Result<std::string> draw(Named kind) const;
  bool add(const Whom& whom, const std::string& pseudonym);
  std::filesystem::path folder() const;

  std::filesystem::path file_;
  std::map<Whom, std::string> pseudonyms_;
  std::set<std::string> given_, ids_;
};

/// Whether `id` has the form of a pseudonym, as "student-k7m3q" has: consonants and digits in turn,
/// without those that look alike.
bool looks_like_pseudonym(std::string_view id, Named kind);

}  // namespace rangecheck::inbox
