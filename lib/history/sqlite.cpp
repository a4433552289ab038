// SPDX-License-Identifier: MIT
#include "history/sqlite.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cassert>
#include <cerrno>
#include <system_error>

namespace rangecheck::history::sqlite {
namespace {

constexpr int wait_for_others_ms = 10'000;

/// SQLite would make it readable by everyone. The error of the system, or 0 when it is there.
int make_private_file(const std::filesystem::path& path) {
  const int file = ::open(path.c_str(), O_CREAT | O_EXCL | O_RDWR | O_NOFOLLOW | O_CLOEXEC, 0600);
  if (file < 0) return errno == EEXIST ? 0 : errno;
  ::close(file);
  return 0;
}

/// `system_error`: of the system, where it had a part in it.
std::string remedy_for(int code, int system_error, const std::filesystem::path& path) {
  switch (code) {
    case SQLITE_CANTOPEN:
    case SQLITE_IOERR:
      return disk_remedy(system_error, path);
    case SQLITE_FULL:
      return disk_remedy(ENOSPC, path);
    case SQLITE_NOTADB:
    case SQLITE_CORRUPT:
      return "move it away; a new one is begun in its place";
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return "wait until the other program is done with it";
    default:
      return "check who may read and write it";
  }
}

}  // namespace

Statement& Statement::bind(std::string_view text) {
  sqlite3_bind_text64(statement_.get(), ++parameter_, text.data() ? text.data() : "", text.size(),
                      SQLITE_TRANSIENT, SQLITE_UTF8);
  return *this;
}

Statement& Statement::bind(std::optional<double> value) {
  if (value)
    sqlite3_bind_double(statement_.get(), ++parameter_, *value);
  else
    sqlite3_bind_null(statement_.get(), ++parameter_);
  return *this;
}

Statement& Statement::bind(std::int64_t value) {
  sqlite3_bind_int64(statement_.get(), ++parameter_, value);
  return *this;
}

Statement& Statement::bind_blob(std::string_view bytes) {
  sqlite3_bind_blob64(statement_.get(), ++parameter_, bytes.data() ? bytes.data() : "",
                      bytes.size(), SQLITE_TRANSIENT);
  return *this;
}

Result<bool> Statement::next() {
  column_ = 0;
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  parameter_ = 0;
  const auto error = database_->error();
  sqlite3_reset(statement_.get());
  if (code == SQLITE_DONE) return false;
  return error;
}

Result<Nothing> Statement::run() {
  const auto row = next();
  if (!row) return row.error();
  assert(!*row);
  return Nothing{};
}

std::string Statement::text() {
  const int column = column_++;
  const auto* bytes = sqlite3_column_text(statement_.get(), column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return bytes ? std::string(reinterpret_cast<const char*>(bytes), size) : std::string();
}

std::optional<double> Statement::number() {
  const int column = column_++;
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return sqlite3_column_double(statement_.get(), column);
}

std::int64_t Statement::integer() { return sqlite3_column_int64(statement_.get(), column_++); }

std::string Statement::blob() {
  const int column = column_++;
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_.get(), column));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return bytes ? std::string(bytes, size) : std::string();
}

Result<Nothing> Database::open(const std::filesystem::path& path) {
  path_ = path;
  if (const int failed = make_private_file(path))
    return Error{Fault::io,
                 "can't be made: " + std::generic_category().message(failed),
                 {.file = name_, .line = {}, .frame = {}, .key = {}},
                 disk_remedy(failed, path)};
  sqlite3* handle = nullptr;
  const int code = sqlite3_open_v2(
      path.c_str(), &handle, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_EXRESCODE,
      nullptr);
  handle_.reset(handle);
  if (code != SQLITE_OK) return error();
  sqlite3_busy_timeout(handle, wait_for_others_ms);
  return Nothing{};
}

Result<Nothing> Database::open_in_memory() {
  sqlite3* handle = nullptr;
  const int code = sqlite3_open(":memory:", &handle);
  handle_.reset(handle);
  return code == SQLITE_OK ? Result<Nothing>(Nothing{}) : error();
}

Result<Nothing> Database::execute(const std::string& sql) {
  if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
    return error();
  return Nothing{};
}

Statement Database::prepare(std::string_view sql) const {
  sqlite3_stmt* statement = nullptr;
  sqlite3_prepare_v2(handle_.get(), sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
  return {statement, *this};
}

Error Database::error() const {
  const int code = sqlite3_extended_errcode(handle_.get()) & 0xff;
  const bool is_systems = code == SQLITE_CANTOPEN || code == SQLITE_IOERR;
  const int system_error = is_systems ? sqlite3_system_errno(handle_.get()) : 0;
  Error error{Fault::io,
              std::string("can't be used: ") + sqlite3_errmsg(handle_.get()),
              {},
              remedy_for(code, system_error, path_)};
  // Where it can't make a file, SQLite tries to read one, and knows that error only.
  if (system_error != 0 && system_error != ENOENT)
    error.what += ": " + std::generic_category().message(system_error);
  error.where.file = name_;
  return error;
}

Result<std::unique_ptr<Transaction>> Transaction::begin(Database& database) {
  if (auto begun = database.execute("BEGIN IMMEDIATE"); !begun) return begun.error();
  return std::make_unique<Transaction>(database);
}

Transaction::~Transaction() {
  if (open_) static_cast<void>(database_.execute("ROLLBACK"));
}

Result<Nothing> Transaction::commit() {
  auto done = database_.execute("COMMIT");
  if (done) open_ = false;
  return done;
}

}  // namespace rangecheck::history::sqlite
