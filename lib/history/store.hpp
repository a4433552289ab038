// SPDX-License-Identifier: MIT
#pragma once

#include <chrono>
#include <filesystem>
#include <memory>
#include <span>

#include "base/publish.hpp"
#include "history/record.hpp"

namespace rangecheck::history {

/// A record and when it was made.
struct Dated {
  Record record;
  std::chrono::sys_seconds recorded;
};

/// The history file: an SQLite database, readable by its owner only.
class Store {
 public:
  /// Opens `path`, or begins a history there. Fault::io when it can't be read or written, is of
  /// another program, or of a later version.
  static Result<Store> open(const std::filesystem::path& path);
  /// The same where there must be one already: asking for a history never begins one.
  static Result<Store> open_existing(const std::filesystem::path& path);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  /// Keeps the record, whole or not at all. One that says what the last of its submission says is
  /// not kept again. True when it was kept.
  Result<bool> add(const Record& record, std::chrono::sys_seconds now);

  /// The last record of each of the student's submissions, in the order in which they were
  /// received; where that is not known, in which they were first recorded.
  Result<std::vector<Dated>> of_student(const std::string& student) const;

  /// Everybody of whom there is a record, in order of id.
  Result<std::vector<std::string>> students() const;

  /// The submissions whose last record is of the student, in order of id: an id may have been given
  /// again, to somebody else's films.
  Result<std::vector<std::string>> submissions_of(const std::string& student) const;

  /// How many records of the student there are.
  Result<std::size_t> count_of(const std::string& student) const;

  /// Removes every record of the student, and their bytes from the file and its log. How many there
  /// were. Fault::io when the file can't be written or another program reads it meanwhile; the same
  /// call again completes what was left undone.
  Result<std::size_t> forget(const std::string& student);

 private:
  struct Inside;
  explicit Store(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace rangecheck::history
