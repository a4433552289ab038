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

}  // namespace rangecheck::history
