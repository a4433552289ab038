// SPDX-License-Identifier: MIT
// What outputs call students and submissions: as the inbox does, or by pseudonyms.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "history/store.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {

/// For all workers at once.
class Naming {
 public:
  /// Without Job::pseudonyms everyone keeps their names. With it every submission of the inbox and
  /// every student of the roster has a pseudonym from now on. Job::out must be there. What KeyFile
  /// fails with, and Fault::bad_value when the key file lies in the inbox or in OUT, or when OUT,
  /// whose history is `history`, has names where there are to be pseudonyms, pseudonyms where there
  /// are to be names, or those of another key: together they would tell who is who.
  static Result<Naming> open(const Job& job, const intake::Roster& roster,
                             std::span<const intake::Location> locations,
                             const history::Store& history);
  Naming(Naming&&) noexcept;
  ~Naming();

  std::string of_submission(const std::string& id) const;
  /// "" for who has no pseudonym yet.
  std::string of_student(const std::string& id) const;
  /// Whom outputs called so before this run; nothing where the key does not know.
  std::optional<std::string> student_called(const std::string& name) const;
  /// Into the order of what outputs call them, which is that of tables: pseudonyms in the order of
  /// the names would tell of them.
  void sort(std::vector<intake::Location>& locations) const;

  /// The submission under the names that outputs use. `golfer.id` stays: it finds the student's own
  /// profile, and goes into no output. A student who has no pseudonym yet is given one.
  Result<Nothing> rename(intake::Submission& submission) const;
  void rename(const intake::Location& location, report::Graded& graded) const;
  /// The error as outputs may have it: without the words and names of files that people wrote.
  report::SetAside rename(const intake::Location& location, Error error) const;

 private:
  struct Inside;
  explicit Naming(std::unique_ptr<Inside> inside);
  Result<Nothing> fits(const std::filesystem::path& out, const history::Store& history) const;
  bool foreign(const std::string& id, bool is_student) const;
  std::unique_ptr<Inside> inside_;
};

}  // namespace rangecheck::inbox
