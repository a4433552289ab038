// SPDX-License-Identifier: MIT
// The tables of the history file, and how those of an earlier version become what they are now.
#include <fmt/format.h>

#include "history/store_inside.hpp"

namespace rangecheck::history {
namespace {

using sqlite::Database;

/// Says in the file whose it is ("rchk"), and which form its tables have.
constexpr int application_id = 0x7263686b, form = 2;

constexpr std::string_view first_form = R"sql(
CREATE TABLE grading (
  id INTEGER PRIMARY KEY,
  recorded INTEGER NOT NULL,       -- seconds since 1970-01-01T00:00:00Z
  submission TEXT NOT NULL,
  student TEXT NOT NULL,
  received TEXT NOT NULL,          -- ISO 8601, or empty
  club TEXT NOT NULL,
  swing TEXT NOT NULL,
  profile TEXT NOT NULL,
  version TEXT NOT NULL,
  percent REAL,                    -- NULL: no grade
  percent_u REAL NOT NULL,
  work_on TEXT NOT NULL            -- ids of checks, separated by spaces
);
CREATE INDEX grading_by_student ON grading (student);
CREATE INDEX grading_by_submission ON grading (submission);
CREATE TABLE check_result (
  grading INTEGER NOT NULL REFERENCES grading ON DELETE CASCADE,
  place INTEGER NOT NULL,          -- in the order of the grade
  id TEXT NOT NULL,
  title TEXT NOT NULL,
  position TEXT NOT NULL,          -- empty: of the whole swing
  dimension TEXT NOT NULL,
  unit TEXT NOT NULL,              -- that the band is written in; values are in SI
  verdict TEXT NOT NULL,
  value REAL,
  u REAL NOT NULL,                 -- standard uncertainty
  band_low REAL,
  band_high REAL,
  PRIMARY KEY (grading, place)
) WITHOUT ROWID;
)sql";

/// What came with form 2: what a grade hangs on, and the ledger.
constexpr std::string_view second_form = R"sql(
ALTER TABLE grading ADD COLUMN inputs TEXT NOT NULL DEFAULT '';  -- hash of the files; '': not noted
ALTER TABLE grading ADD COLUMN taught TEXT NOT NULL DEFAULT '';  -- hash of all else; '': not noted
CREATE TABLE worked (
  submission TEXT PRIMARY KEY,
  student TEXT NOT NULL,           -- empty: not known
  received TEXT NOT NULL,
  club TEXT NOT NULL,
  swing TEXT NOT NULL,
  style TEXT NOT NULL,
  limits TEXT NOT NULL,            -- of the body, separated by line breaks
  stamp TEXT NOT NULL,             -- hash of names, sizes, times and inodes
  inputs TEXT NOT NULL,
  taught TEXT NOT NULL,
  shown TEXT NOT NULL,             -- hash of what the pages alone hang on
  fault INTEGER,                   -- NULL: it was graded; else why it was set aside
  what TEXT NOT NULL,
  file TEXT NOT NULL,
  line INTEGER,
  frame INTEGER,
  place TEXT NOT NULL,
  remedy TEXT NOT NULL,
  summary BLOB NOT NULL            -- for tables
);
CREATE INDEX worked_by_student ON worked (student);
CREATE TABLE worked_checks (       -- apart, so that all of the ledger is read quickly
  submission TEXT PRIMARY KEY REFERENCES worked ON DELETE CASCADE,
  checks BLOB NOT NULL
);
CREATE TABLE note (key TEXT PRIMARY KEY, value TEXT NOT NULL);
)sql";

Error not_ours(const std::string& file, std::string what, std::string remedy) {
  Error error{Fault::io, std::move(what), {}, std::move(remedy)};
  error.where.file = file;
  return error;
}

Result<std::int64_t> ask(Database& database, std::string_view sql) {
  auto statement = database.prepare(sql);
  const auto row = statement.next();
  if (!row) return row.error();
  return statement.integer();
}

}  // namespace

Result<Nothing> be_ours(Database& database, const std::string& name) {
  // Readers and the writer do not wait for each other, and a crash leaves whole records. Each
  // commit is on the disk before the next thing is done: outputs may change only after `begin`.
  for (const auto* setting :
       {"PRAGMA journal_mode = WAL", "PRAGMA synchronous = FULL", "PRAGMA foreign_keys = ON"})
    if (auto set = database.execute(setting); !set) return set;
  auto writing = sqlite::Transaction::begin(database);
  if (!writing) return writing.error();
  const auto owner = ask(database, "PRAGMA application_id");
  if (!owner) return owner.error();
  const auto its_form = ask(database, "PRAGMA user_version");
  if (!its_form) return its_form.error();
  const auto things = ask(database, "SELECT count(*) FROM sqlite_schema");
  if (!things) return things.error();
  if (*things > 0 && *owner != application_id)
    return not_ours(name, "is another program's database", "move it away");
  if (*its_form > form)
    return not_ours(name, "is of a later version of rangecheck", "use that version");
  if (*its_form == form) return Nothing{};
  const auto made = database.execute(
      fmt::format("{}{}PRAGMA application_id = {}; PRAGMA user_version = {};",
                  *its_form == 0 ? first_form : "", second_form, application_id, form));
  if (!made) return made;
  return (*writing)->commit();
}

}  // namespace rangecheck::history
