// SPDX-License-Identifier: MIT
// What a Store is made of. Not for other rooms.
#pragma once

#include "history/sqlite.hpp"
#include "history/store.hpp"

namespace rangecheck::history {

struct Store::Inside {
  explicit Inside(std::string name) : database(std::move(name)) {}
  sqlite::Database database;
};

/// The first column of all rows that are left.
Result<std::vector<std::string>> texts_of(sqlite::Statement& statement);

}  // namespace rangecheck::history
