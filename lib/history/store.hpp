// SPDX-License-Identifier: MIT
#pragma once

#include <chrono>
#include <compare>
#include <filesystem>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "base/publish.hpp"
#include "history/record.hpp"
#include "history/worked.hpp"

namespace rangecheck::history {

/// A record and when it was made.
struct Dated {
  Record record;
  std::chrono::sys_seconds recorded;
};

/// Where a submission stands among others: by when it was received (where that is not known, first
/// recorded), then by id.
struct Arrival {
  std::chrono::sys_seconds at;
  std::string submission;

  auto operator<=>(const Arrival&) const = default;
};
Arrival arrival_of(const Dated& submission);

/// The history file: an SQLite database, readable by its owner only.
class Store {
 public:
  /// Opens `path`, or begins a history there. Fault::io when it can't be read or written, is of
  /// another program, or of a later version.
  static Result<Store> open(const std::filesystem::path& path);
  /// The same where there must be one already: asking for a history never begins one.
  static Result<Store> open_existing(const std::filesystem::path& path);
  /// An empty one that is in memory only.
  static Result<Store> in_memory();
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  /// Keeps the record, whole or not at all. One that says what the last of its submission says is
  /// not kept again. True when it was kept.
  Result<bool> add(const Record& record, std::chrono::sys_seconds now);

  /// The last record of each of the student's submissions, with the moment of its first, in order
  /// of arrival. Of a submission that turned out to be somebody else's, nothing.
  Result<std::vector<Dated>> of_student(const std::string& student) const;

  /// When this submission of the student was first recorded, if it was.
  Result<std::optional<std::chrono::sys_seconds>> first_recorded(
      const std::string& student, const std::string& submission) const;

  /// Everybody of whom there is a record, in order of id.
  Result<std::vector<std::string>> students() const;

  /// The submissions whose last record is of the student, in order of id: an id may have been given
  /// again, to somebody else's films.
  Result<std::vector<std::string>> submissions_of(const std::string& student) const;

  /// How many records of the student there are.
  Result<std::size_t> count_of(const std::string& student) const;

  /// What is known of every submission that was worked through, in order of id; and what is kept of
  /// the checks of one of them, which is nothing where it was not graded.
  Result<std::vector<Worked>> all_worked() const;
  Result<std::string> checks_of(const std::string& submission) const;

  /// From now on nothing is known of the submission but its grades: its outputs are about to
  /// change.
  Result<Nothing> begin(const std::string& submission);
  /// Keeps how a submission was worked through, in place of what was known, and its grade as `add`
  /// does: all of it or nothing. The id of its last record, or 0 without a `record`. `checks` are
  /// bytes that are the reports' affair.
  Result<std::int64_t> keep(const Worked& worked, const std::string& checks, const Record* record,
                            std::chrono::sys_seconds now);
  /// Its files have been touched, and say the same.
  Result<Nothing> restamp(const std::string& submission, const std::string& stamp);

  /// The last grading of every submission, in order of id.
  Result<std::vector<Last>> last_gradings() const;

  /// A word about the run as a whole; empty where none was left.
  Result<std::string> note(const std::string& key) const;
  Result<Nothing> set_note(const std::string& key, const std::string& value);

  /// Removes every record of the student, and their bytes from the file and its log. How many there
  /// were. What is known of the student's submissions goes as well, and of those in `submissions`,
  /// of which only their caller knows whose they are. Fault::io when the file can't be written or
  /// another program reads it meanwhile; the same call again completes what was left undone.
  Result<std::size_t> forget(const std::string& student,
                             const std::set<std::string>& submissions = {});

 private:
  struct Inside;
  explicit Store(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace rangecheck::history
