// SPDX-License-Identifier: MIT
// The little of SQLite that the store needs, with its handles owned and its errors as values.
#pragma once

#include <sqlite3.h>

#include <concepts>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/publish.hpp"
#include "base/result.hpp"

namespace rangecheck::history::sqlite {

class Database;

/// A prepared statement. Parameters are bound in order, columns read in order.
class Statement {
 public:
  /// Binds the next parameter.
  Statement& bind(std::string_view text);
  Statement& bind(std::optional<double> value);
  Statement& bind(std::int64_t value);
  Statement& bind_blob(std::string_view bytes);

  /// Steps to the next row: true when there is one. After the last, and after an error, the
  /// statement is ready to be bound again.
  Result<bool> next();
  /// Runs a statement that gives no rows.
  Result<Nothing> run();

  /// Reads the next column of the row.
  std::string text();
  std::optional<double> number();
  std::int64_t integer();
  std::string blob();

 private:
  friend class Database;
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  Statement(sqlite3_stmt* statement, const Database& database)
      : statement_(statement), database_(&database) {}

  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  const Database* database_;
  int parameter_ = 0, column_ = 0;
};

/// An open database file. Not movable: statements refer to it.
class Database {
 public:
  explicit Database(std::string name) : name_(std::move(name)) {}
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  /// Opens `path`, or makes it, readable by its owner only.
  Result<Nothing> open(const std::filesystem::path& path);
  Result<Nothing> open_in_memory();
  Result<Nothing> execute(const std::string& sql);
  /// The statement must be right: it is the program's own.
  Statement prepare(std::string_view sql) const;
  std::int64_t last_row() const { return sqlite3_last_insert_rowid(handle_.get()); }
  /// The error of the last call.
  Error error() const;

 private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close(handle); }
  };
  std::string name_;  ///< for errors
  std::filesystem::path path_;
  std::unique_ptr<sqlite3, Close> handle_;
};

/// Rolled back unless it was committed.
class Transaction {
 public:
  /// Writes from now on; waits for another program that writes.
  static Result<std::unique_ptr<Transaction>> begin(Database& database);
  explicit Transaction(Database& database) : database_(database) {}
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  Result<Nothing> commit();

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace rangecheck::history::sqlite
