// SPDX-License-Identifier: MIT
// What a Store is made of. Not for other rooms.
#pragma once

#include "history/sqlite.hpp"
#include "history/store.hpp"

namespace rangecheck::history {

struct Store::Inside {
  explicit Inside(std::string name) : database(std::move(name)) {}

  struct Added {
    std::int64_t id = 0;  ///< of the submission's last record
    bool is_new = false;
  };
  /// What Store::add does, inside a transaction of the caller's.
  Result<Added> add(const Record& record, std::chrono::sys_seconds now);

  sqlite::Database database;
};

/// The first column of all rows that are left.
Result<std::vector<std::string>> texts_of(sqlite::Statement& statement);

/// Makes the tables in a new file, brings those of an earlier version up to date, and refuses a
/// file that is somebody else's.
Result<Nothing> be_ours(sqlite::Database& database, const std::string& name);

}  // namespace rangecheck::history
