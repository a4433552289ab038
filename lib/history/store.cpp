// SPDX-License-Identifier: MIT
#include "history/store.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/instant.hpp"
#include "base/text.hpp"
#include "history/store_inside.hpp"
#include "history/verdicts.hpp"

namespace rangecheck::history {
namespace {

using sqlite::Database;
using sqlite::Statement;
using std::chrono::sys_seconds;

std::string joined(const std::vector<std::string>& ids) {
  return fmt::format("{}", fmt::join(ids, " "));
}

std::vector<std::string> apart(std::string_view ids) {
  std::vector<std::string> out;
  if (ids.empty()) return out;
  for (const auto id : split(ids, ' ')) out.emplace_back(id);
  return out;
}

/// The one of `all` with this name. Names are written by this program; one that it doesn't know is
/// of a file that somebody changed.
template <class T, std::size_t N>
Result<T> named(const std::array<T, N>& all, std::string_view name) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](T one) { return name_of(one) == name; });
  if (found == all.end())
    return Error{Fault::io,
                 "the history holds an unknown word: " + quoted(name),
                 {},
                 "restore it from a copy"};
  return *found;
}

constexpr std::array dimensions{Dimension::angle, Dimension::length, Dimension::ratio,
                                Dimension::time};

constexpr std::string_view grading_columns =
    "id, recorded, submission, student, received, club, swing, profile, version, inputs, taught, "
    "percent, percent_u, work_on";

struct Row {
  std::int64_t id = 0;
  Dated dated;
};

Row read_grading(Statement& row) {
  Row out;
  out.id = row.integer();
  out.dated.recorded = sys_seconds(std::chrono::seconds(row.integer()));
  Record& record = out.dated.record;
  for (auto* text :
       {&record.submission, &record.student, &record.received, &record.club, &record.swing,
        &record.profile, &record.version, &record.inputs, &record.taught})
    *text = row.text();
  record.percent = row.number();
  record.percent_uncertainty = row.number().value_or(0);
  record.work_on = apart(row.text());
  return out;
}

Result<std::vector<Row>> gradings(const Database& database, std::string_view where,
                                  const std::string& is) {
  auto statement = database.prepare(
      fmt::format("SELECT {} FROM grading WHERE {} ORDER BY id", grading_columns, where));
  statement.bind(is);
  std::vector<Row> rows;
  while (true) {
    const auto row = statement.next();
    if (!row) return row.error();
    if (!*row) return rows;
    rows.push_back(read_grading(statement));
  }
}

Result<CheckRecord> read_check(Statement& row) {
  CheckRecord check;
  check.id = row.text();
  check.title = row.text();
  check.position = find_position(row.text());
  const auto dimension = named(dimensions, row.text());
  if (!dimension) return dimension.error();
  check.dimension = *dimension;
  check.unit = row.text();
  const auto verdict = named(all_verdicts, row.text());
  if (!verdict) return verdict.error();
  check.verdict = *verdict;
  check.value_si = row.number();
  check.standard_uncertainty_si = row.number().value_or(0);
  check.band.lower_si = row.number();
  check.band.upper_si = row.number();
  return check;
}

Result<Nothing> read_checks(const Database& database, Row& row) {
  auto statement = database.prepare(
      "SELECT id, title, position, dimension, unit, verdict, value, u, band_low, band_high "
      "FROM check_result WHERE grading = ? ORDER BY place");
  statement.bind(row.id);
  while (true) {
    const auto next = statement.next();
    if (!next) return next.error();
    if (!*next) return Nothing{};
    auto check = read_check(statement);
    if (!check) return check.error();
    row.dated.record.checks.push_back(*std::move(check));
  }
}

Result<std::int64_t> write_grading(Database& database, const Record& record, sys_seconds now) {
  auto statement = database.prepare(
      "INSERT INTO grading (recorded, submission, student, received, club, swing, profile, "
      "version, inputs, taught, percent, percent_u, work_on) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  statement.bind(static_cast<std::int64_t>(now.time_since_epoch().count()));
  for (const auto* text :
       {&record.submission, &record.student, &record.received, &record.club, &record.swing,
        &record.profile, &record.version, &record.inputs, &record.taught})
    statement.bind(*text);
  statement.bind(record.percent).bind(std::optional(record.percent_uncertainty));
  statement.bind(joined(record.work_on));
  if (auto run = statement.run(); !run) return run.error();
  return database.last_row();
}

Result<Nothing> write_checks(const Database& database, std::int64_t grading,
                             std::span<const CheckRecord> checks) {
  auto statement =
      database.prepare("INSERT INTO check_result VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  std::int64_t place = 0;
  for (const auto& check : checks) {
    statement.bind(grading).bind(place++).bind(check.id).bind(check.title);
    statement.bind(check.position ? id_of(*check.position) : std::string_view());
    statement.bind(name_of(check.dimension)).bind(check.unit).bind(grade::name_of(check.verdict));
    statement.bind(check.value_si).bind(std::optional(check.standard_uncertainty_si));
    statement.bind(check.band.lower_si).bind(check.band.upper_si);
    if (auto run = statement.run(); !run) return run;
  }
  return Nothing{};
}

/// The last record of each submission, with the moment of its first.
std::vector<Row> last_of_each(std::vector<Row> rows) {
  std::vector<Row> out;
  for (auto& row : rows) {
    const auto same = std::find_if(out.begin(), out.end(), [&](const Row& earlier) {
      return earlier.dated.record.submission == row.dated.record.submission;
    });
    if (same == out.end()) {
      out.push_back(std::move(row));
      continue;
    }
    row.dated.recorded = same->dated.recorded;
    *same = std::move(row);
  }
  return out;
}

}  // namespace

Arrival arrival_of(const Dated& submission) {
  const Record& record = submission.record;
  return {parse_instant(record.received).value_or(submission.recorded), record.submission};
}

Result<std::vector<std::string>> texts_of(sqlite::Statement& statement) {
  std::vector<std::string> out;
  while (true) {
    const auto row = statement.next();
    if (!row) return row.error();
    if (!*row) return out;
    out.push_back(statement.text());
  }
}

Store::Store(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Result<Store> Store::open(const std::filesystem::path& path) {
  const std::string name = printable(path.filename().string());
  auto inside = std::make_unique<Inside>(name);
  if (auto opened = inside->database.open(path); !opened) return opened.error();
  if (auto ours = be_ours(inside->database, name); !ours) return ours.error();
  return Store(std::move(inside));
}

Result<Store> Store::in_memory() {
  auto inside = std::make_unique<Inside>("memory");
  if (auto opened = inside->database.open_in_memory(); !opened) return opened.error();
  if (auto ours = be_ours(inside->database, "memory"); !ours) return ours.error();
  return Store(std::move(inside));
}

Result<Store> Store::open_existing(const std::filesystem::path& path) {
  std::error_code ignored;
  if (!std::filesystem::exists(path, ignored))
    return Error{Fault::io,
                 "there is no history",
                 {.file = printable(path.string()), .line = {}, .frame = {}, .key = {}},
                 "grade an inbox first"};
  return open(path);
}

Result<bool> Store::add(const Record& record, sys_seconds now) {
  auto writing = sqlite::Transaction::begin(inside_->database);
  if (!writing) return writing.error();
  const auto added = inside_->add(record, now);
  if (!added) return added.error();
  if (auto committed = (*writing)->commit(); !committed) return committed.error();
  return added->is_new;
}

Result<Store::Inside::Added> Store::Inside::add(const Record& record, sys_seconds now) {
  auto earlier = gradings(database, "submission = ?", record.submission);
  if (!earlier) return earlier.error();
  if (!earlier->empty()) {
    Row& last = earlier->back();
    if (auto read = read_checks(database, last); !read) return read.error();
    if (last.dated.record == record) return Added{last.id, false};
  }
  const auto id = write_grading(database, record, now);
  if (!id) return id.error();
  if (auto written = write_checks(database, *id, record.checks); !written) return written.error();
  return Added{*id, true};
}

Result<std::vector<Dated>> Store::of_student(const std::string& student) const {
  auto found = gradings(inside_->database,
                        "student = ?1 AND NOT EXISTS (SELECT 1 FROM grading AS later "
                        "WHERE later.submission = grading.submission AND later.id > grading.id "
                        "AND later.student <> ?1)",
                        student);
  if (!found) return found.error();
  auto rows = last_of_each(*std::move(found));
  std::ranges::sort(rows, {}, [](const Row& row) { return arrival_of(row.dated); });
  std::vector<Dated> out;
  for (auto& row : rows) {
    if (auto read = read_checks(inside_->database, row); !read) return read.error();
    out.push_back(std::move(row.dated));
  }
  return out;
}

Result<std::optional<sys_seconds>> Store::first_recorded(const std::string& student,
                                                         const std::string& submission) const {
  auto statement = inside_->database.prepare(
      "SELECT recorded FROM grading WHERE student = ? AND submission = ? ORDER BY id LIMIT 1");
  statement.bind(student).bind(submission);
  const auto row = statement.next();
  if (!row) return row.error();
  if (!*row) return std::optional<sys_seconds>();
  return std::optional(sys_seconds(std::chrono::seconds(statement.integer())));
}

Result<std::vector<std::string>> Store::students() const {
  auto statement =
      inside_->database.prepare("SELECT DISTINCT student FROM grading ORDER BY student");
  return texts_of(statement);
}

}  // namespace rangecheck::history
