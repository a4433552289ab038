// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <map>

#include "base/text.hpp"
#include "history/store_inside.hpp"

namespace rangecheck::history {
namespace {

using sqlite::Database;
using sqlite::Statement;
using std::chrono::sys_seconds;

sys_seconds moment(std::int64_t since_1970_s) {
  return sys_seconds(std::chrono::seconds(since_1970_s));
}

std::optional<Error> read_error(Statement& row) {
  const auto fault = row.number();
  Error error;
  error.what = row.text();
  error.where.file = row.text();
  if (const auto line = row.number()) error.where.line = static_cast<int>(*line);
  if (const auto frame = row.number()) error.where.frame = static_cast<std::size_t>(*frame);
  error.where.key = row.text();
  error.remedy = row.text();
  if (!fault) return std::nullopt;
  error.fault = static_cast<Fault>(*fault);
  return error;
}

void bind_error(Statement& statement, const std::optional<Error>& error) {
  const auto number = [](const auto& value) {
    return value ? std::optional(static_cast<double>(*value)) : std::nullopt;
  };
  const Error none;
  const Error& one = error ? *error : none;
  statement.bind(error ? std::optional(static_cast<double>(error->fault)) : std::nullopt);
  statement.bind(one.what).bind(one.where.file);
  statement.bind(number(one.where.line)).bind(number(one.where.frame));
  statement.bind(one.where.key).bind(one.remedy);
}

Worked read_worked(Statement& row) {
  Worked out;
  for (auto* text :
       {&out.submission, &out.student, &out.received, &out.club, &out.swing, &out.style})
    *text = row.text();
  if (const std::string limits = row.text(); !limits.empty())
    for (const auto limit : split(limits, '\n')) out.limits.emplace_back(limit);
  for (auto* text : {&out.stamp, &out.inputs, &out.taught, &out.shown}) *text = row.text();
  out.error = read_error(row);
  out.summary = row.blob();
  return out;
}

Result<Nothing> write_worked(Database& database, const Worked& worked) {
  auto statement = database.prepare(
      "INSERT OR REPLACE INTO worked VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
      "?)");
  for (const auto* text : {&worked.submission, &worked.student, &worked.received, &worked.club,
                           &worked.swing, &worked.style})
    statement.bind(*text);
  statement.bind(fmt::format("{}", fmt::join(worked.limits, "\n")));
  for (const auto* text : {&worked.stamp, &worked.inputs, &worked.taught, &worked.shown})
    statement.bind(*text);
  bind_error(statement, worked.error);
  statement.bind_blob(worked.summary);
  return statement.run();
}

Result<Nothing> write_checks(Database& database, const std::string& submission,
                             const std::string& checks) {
  if (checks.empty()) return Nothing{};
  auto statement = database.prepare("INSERT INTO worked_checks VALUES (?, ?)");
  statement.bind(submission).bind_blob(checks);
  return statement.run();
}

Result<Nothing> remove(Database& database, const std::string& submission) {
  auto statement = database.prepare("DELETE FROM worked WHERE submission = ?");
  statement.bind(submission);
  return statement.run();
}

}  // namespace

Result<std::vector<Worked>> Store::all_worked() const {
  auto statement = inside_->database.prepare("SELECT * FROM worked ORDER BY submission");
  std::vector<Worked> out;
  while (true) {
    const auto row = statement.next();
    if (!row) return row.error();
    if (!*row) return out;
    out.push_back(read_worked(statement));
  }
}

Result<std::string> Store::checks_of(const std::string& submission) const {
  auto statement =
      inside_->database.prepare("SELECT checks FROM worked_checks WHERE submission = ?");
  statement.bind(submission);
  const auto row = statement.next();
  if (!row) return row.error();
  return *row ? statement.blob() : std::string();
}

Result<Nothing> Store::begin(const std::string& submission) {
  return remove(inside_->database, submission);
}

Result<std::int64_t> Store::keep(const Worked& worked, const std::string& checks,
                                 const Record* record, sys_seconds now) {
  auto writing = sqlite::Transaction::begin(inside_->database);
  if (!writing) return writing.error();
  std::int64_t id = 0;
  if (record) {
    const auto added = inside_->add(*record, now);
    if (!added) return added.error();
    id = added->id;
  }
  auto done = remove(inside_->database, worked.submission);
  if (done) done = write_worked(inside_->database, worked);
  if (done) done = write_checks(inside_->database, worked.submission, checks);
  if (done) done = (*writing)->commit();
  if (!done) return done.error();
  return id;
}

Result<Nothing> Store::restamp(const std::string& submission, const std::string& stamp) {
  auto statement = inside_->database.prepare("UPDATE worked SET stamp = ? WHERE submission = ?");
  statement.bind(stamp).bind(submission);
  return statement.run();
}

Result<std::vector<Last>> Store::last_gradings() const {
  auto statement = inside_->database.prepare(
      "SELECT id, recorded, submission, student, received, club, swing FROM grading ORDER BY id");
  std::map<std::string, Last> last;
  std::map<std::pair<std::string, std::string>, sys_seconds> first;  // by student and submission
  while (true) {
    const auto row = statement.next();
    if (!row) return row.error();
    if (!*row) break;
    Last one;
    one.id = statement.integer();
    const auto recorded = moment(statement.integer());
    for (auto* text : {&one.submission, &one.student, &one.received, &one.club, &one.swing})
      *text = statement.text();
    one.first_recorded =
        first.emplace(std::pair(one.student, one.submission), recorded).first->second;
    last[one.submission] = std::move(one);
  }
  std::vector<Last> out;
  for (auto& [submission, one] : last) out.push_back(std::move(one));
  return out;
}

Result<std::string> Store::note(const std::string& key) const {
  auto statement = inside_->database.prepare("SELECT value FROM note WHERE key = ?");
  statement.bind(key);
  const auto row = statement.next();
  if (!row) return row.error();
  return *row ? statement.text() : std::string();
}

Result<Nothing> Store::set_note(const std::string& key, const std::string& value) {
  auto statement = inside_->database.prepare("INSERT OR REPLACE INTO note VALUES (?, ?)");
  statement.bind(key).bind(value);
  return statement.run();
}

}  // namespace rangecheck::history
