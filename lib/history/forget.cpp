// SPDX-License-Identifier: MIT
#include "history/store_inside.hpp"

namespace rangecheck::history {
namespace {

using sqlite::Database;

/// What the ledger knows of the student's submissions and of those named.
Result<Nothing> delete_ledger(Database& database, const std::string& student,
                              const std::set<std::string>& submissions) {
  auto theirs = database.prepare(
      "DELETE FROM worked WHERE student = ?1 OR submission IN "
      "(SELECT submission FROM grading WHERE student = ?1)");
  theirs.bind(student);
  if (auto run = theirs.run(); !run) return run;
  auto one = database.prepare("DELETE FROM worked WHERE submission = ?");
  for (const auto& submission : submissions) {
    one.bind(submission);
    if (auto run = one.run(); !run) return run;
  }
  return Nothing{};
}

Result<std::size_t> delete_rows(Database& database, const std::string& student,
                                const std::set<std::string>& submissions) {
  auto writing = sqlite::Transaction::begin(database);
  if (!writing) return writing.error();
  if (auto deleted = delete_ledger(database, student, submissions); !deleted)
    return deleted.error();
  auto statement = database.prepare("DELETE FROM grading WHERE student = ? RETURNING id");
  statement.bind(student);
  std::size_t count = 0;
  while (true) {
    const auto row = statement.next();
    if (!row) return row.error();
    if (!*row) break;
    ++count;
  }
  if (auto committed = (*writing)->commit(); !committed) return committed.error();
  return count;
}

/// Empties the write-ahead log into the file. SQLite answers with a row whose first number says
/// whether a reader was in the way (sqlite.org, PRAGMA wal_checkpoint).
Result<Nothing> empty_the_log(Database& database) {
  auto statement = database.prepare("PRAGMA wal_checkpoint(TRUNCATE)");
  const auto row = statement.next();
  if (!row) return row.error();
  if (*row && statement.integer() == 0) return Nothing{};
  return Error{Fault::io,
               "is being read by another program, so that what was removed can't be wiped yet",
               {.file = "history.sqlite", .line = {}, .frame = {}, .key = {}},
               "close that program and give the same command again"};
}

}  // namespace

Result<std::size_t> Store::forget(const std::string& student,
                                  const std::set<std::string>& submissions) {
  Database& database = inside_->database;
  // Deleted cells are written over with zeros, and what VACUUM needs meanwhile is in no other file.
  for (const auto* setting : {"PRAGMA secure_delete = ON", "PRAGMA temp_store = MEMORY"})
    if (auto set = database.execute(setting); !set) return set.error();
  const auto count = delete_rows(database, student, submissions);
  if (!count) return count;
  // Also when there was nothing to delete: an earlier call may have been killed before this.
  if (auto packed = database.execute("VACUUM"); !packed) return packed.error();
  if (auto emptied = empty_the_log(database); !emptied) return emptied.error();
  return count;
}

Result<std::vector<std::string>> Store::submissions_of(const std::string& student) const {
  auto statement = inside_->database.prepare(
      "SELECT DISTINCT submission FROM grading WHERE student = ? AND NOT EXISTS "
      "(SELECT 1 FROM grading AS later WHERE later.submission = grading.submission AND "
      "later.id > grading.id AND later.student <> grading.student) ORDER BY submission");
  statement.bind(student);
  return texts_of(statement);
}

Result<std::size_t> Store::count_of(const std::string& student) const {
  auto statement = inside_->database.prepare("SELECT count(*) FROM grading WHERE student = ?");
  statement.bind(student);
  const auto row = statement.next();
  if (!row) return row.error();
  return static_cast<std::size_t>(statement.integer());
}

}  // namespace rangecheck::history
