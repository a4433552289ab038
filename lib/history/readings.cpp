// SPDX-License-Identifier: MIT
#include "history/readings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "base/text.hpp"
#include "grade/named_check.hpp"
#include "history/verdicts.hpp"
#include "intake/rows.hpp"

namespace rangecheck::history {
namespace {

constexpr std::array<std::string_view, 25> columns = {
    "submission", "student",  "club",      "swing",  "profile", "position", "region",
    "check",      "title",    "unit",      "value",  "u",       "low_95",   "high_95",
    "word",       "band_low", "band_high", "accept", "verdict", "p_inside", "score",
    "weight",     "work_on",  "reason",    "remedy"};

/// Beyond this, in rad, m, s or 1, nothing of a golfer can be: a slip of the pen, which squared
/// would be infinite.
constexpr double largest_si = 1e6;

std::string did_you_mean(std::string_view word, std::span<const std::string_view> all,
                         std::string otherwise) {
  const std::string near = nearest(word, all);
  return near.empty() ? otherwise : "did you mean " + near + "?";
}

class Table {
 public:
  Table(std::string_view text, const std::string& file, std::span<const Record> known)
      : file_(file), rows_(text, file) {
    for (const auto& record : known)
      for (const auto& check : record.checks) known_.emplace(check.id, &check);
  }

  Result<std::vector<Record>> read() {
    if (auto more = next_row(); !more) return more.error();
    if (row_.cells.empty()) return error("", "is empty", "start with a line of column names");
    if (auto read = read_header(); !read) return read.error();
    while (true) {
      const auto more = next_row();
      if (!more) return more.error();
      if (!*more) return std::move(records_);
      if (auto read = read_row(); !read) return read.error();
    }
  }

 private:
  Error error(std::string_view column, std::string what, std::string remedy = "") const {
    return {Fault::bad_value, std::move(what),
            Place{.file = file_, .line = row_.line, .frame = {}, .key = std::string(column)},
            std::move(remedy)};
  }
  Error error(std::string_view column, const Error& why) const {
    return error(column, why.what, why.remedy);
  }

  /// False after the last.
  Result<bool> next_row() {
    auto row = rows_.next();
    if (!row) return row.error();
    if (!*row) return false;
    row_ = std::move(**row);
    return true;
  }

  Result<bool> read_header() {
    for (const auto& cell : row_.cells) {
      const std::string name = lower(trim(cell));
      const auto found = std::ranges::find(columns, name);
      if (found == columns.end())
        return error("", "there is no column " + rangecheck::quoted(cell),
                     cell.find(';') != std::string::npos
                         ? "separate the columns by commas"
                         : did_you_mean(name, columns, "take it out"));
      if (!places_.emplace(*found, order_++).second)
        return error(*found, "this column stands there twice");
    }
    if (!has("submission") && !has("student"))
      return error("submission", "the first line has no column of this name",
                   "say with submission, or with student, whose reading it is");
    for (const std::string_view needed : {"check", "value", "unit"})
      if (!has(needed))
        return error(needed, "the first line has no column of this name",
                     "the columns needed are submission or student, check, value and unit");
    return true;
  }

  bool has(std::string_view column) const { return places_.contains(column); }

  std::string_view cell(std::string_view column) const {
    const auto place = places_.find(column);
    if (place == places_.end() || place->second >= row_.cells.size()) return {};
    return trim(row_.cells[place->second]);
  }

  /// An id as it was before a leading ' made it safe to open.
  std::string id_in(std::string_view column) const {
    const auto text = cell(column);
    return std::string(text.substr(text.starts_with('\'') ? 1 : 0));
  }

  Result<bool> read_row() {
    for (std::size_t i = order_; i < row_.cells.size(); ++i)
      if (!trim(row_.cells[i]).empty())
        return error("", "has more cells than the header has columns",
                     "put cells with commas into quotation marks");
    auto check = read_check();
    if (!check) return check.error();
    if (auto read = read_value(*check); !read) return read.error();
    if (auto read = read_verdict(*check); !read) return read.error();
    return keep(std::move(*check));
  }

  Result<std::optional<Position>> read_position() const {
    const auto text = cell("position");
    if (text.empty()) return std::optional<Position>();
    if (const auto found = find_position(text)) return found;
    std::vector<std::string_view> ids;
    for (const Position each : all_positions) ids.push_back(id_of(each));
    return error("position", rangecheck::quoted(text) + " is no position",
                 did_you_mean(text, ids, "write top or p4, for one"));
  }

  /// The check that the row names, with nothing read yet.
  Result<CheckRecord> read_check() const {
    const auto text = cell("check");
    if (text.empty()) return error("check", "the row names no check");
    const auto position = read_position();
    if (!position) return position.error();
    auto found = named(text, position->value_or(Position::address));
    if (!found) return error("check", found.error());
    if (*position && found->position != *position)
      return error("position",
                   rangecheck::quoted(text) + " is not at " + std::string(id_of(**position)),
                   found->position ? "it is at " + std::string(id_of(*found->position))
                                   : "it is of the whole swing: leave position empty");
    return found;
  }

  Result<CheckRecord> named(std::string_view text, Position position) const {
    for (const auto& id : {std::string(text), measure::check_id(text, position)})
      if (const auto known = known_.find(id); known != known_.end())
        return blank(id, known->second->title, known->second->position, known->second->dimension,
                     known->second->unit);
    auto found = grade::known_check(text, position);
    if (!found) {
      if (found.error().remedy.empty())
        found.error().remedy =
            "rangecheck rules lists measures, and rules ID says where one is measured; one of your "
            "own "
            "is known where the other side is a folder that grade wrote";
      return found.error();
    }
    return blank(found->id, found->title, found->position, found->dimension, "");
  }

  static CheckRecord blank(std::string id, std::string title, std::optional<Position> position,
                           Dimension dimension, std::string unit) {
    return {.id = std::move(id),
            .title = std::move(title),
            .position = position,
            .dimension = dimension,
            .unit = std::move(unit),
            .verdict = grade::Verdict::not_seen,
            .value_si = std::nullopt,
            .band = {}};
  }

  /// The number in `column`, in the row's unit.
  Result<double> number(std::string_view column, Dimension dimension) const {
    const std::string text(cell(column)), unit(cell("unit"));
    if (!find_unit(unit))
      return error("unit", "there is no unit " + rangecheck::quoted(unit),
                   "write deg, rad, in, ft, m, cm, mm, s, ms or %, or nothing for a plain ratio");
    const auto read = parse_quantity(text + " " + unit, dimension);
    if (!read) return error(column, read.error());
    if (std::abs(read->si) > largest_si)
      return error(column, rangecheck::quoted(text + " " + unit) + " is beyond all measure");
    return read->si;
  }

  Result<bool> read_value(CheckRecord& check) const {
    if (cell("value").empty()) return false;
    const auto value = number("value", check.dimension);
    if (!value) return value.error();
    check.value_si = *value;
    if (cell("u").empty()) return true;
    const auto uncertainty = number("u", check.dimension);
    if (!uncertainty) return uncertainty.error();
    if (*uncertainty < 0) return error("u", "is less than 0", "a standard uncertainty has no sign");
    check.standard_uncertainty_si = *uncertainty;
    return true;
  }

  Result<bool> read_verdict(CheckRecord& check) const {
    const auto text = cell("verdict");
    if (text.empty()) return false;
    const auto found = std::ranges::find_if(
        all_verdicts, [&](const grade::Verdict each) { return grade::name_of(each) == text; });
    if (found == all_verdicts.end()) {
      std::vector<std::string_view> names;
      for (const auto each : all_verdicts) names.push_back(grade::name_of(each));
      return error("verdict", "there is no verdict " + rangecheck::quoted(text),
                   did_you_mean(text, names, "write inside, low or high, or nothing"));
    }
    check.verdict = *found;
    return true;
  }

  Result<bool> keep(CheckRecord check) {
    const bool by_submission = has("submission");
    const std::string submission = id_in("submission"), student = id_in("student");
    const std::string& key = by_submission ? submission : student;
    if (key.empty())
      return error(by_submission ? "submission" : "student", "the row does not say whose it is");
    const auto [place, is_new] = places_of_.emplace(key, records_.size());
    if (is_new) {
      Record& record = records_.emplace_back();
      record.submission = submission;
      record.student = student;
    }
    Record& record = records_[place->second];
    if (record.student != student)
      return error("student", "is another student than in the submission's rows before");
    if (!seen_.emplace(place->second, check.id).second)
      return error("check",
                   rangecheck::quoted(check.id) + " stands there twice for this " +
                       (by_submission ? "submission" : "student"),
                   "leave one of them");
    record.checks.push_back(std::move(check));
    return true;
  }

  const std::string& file_;
  intake::RowReader rows_;
  intake::Row row_;
  std::size_t order_ = 0;                            ///< how many columns there are
  std::map<std::string_view, std::size_t> places_;   ///< of each column in a row
  std::map<std::string, const CheckRecord*> known_;  ///< by id
  std::vector<Record> records_;
  std::map<std::string, std::size_t> places_of_;        ///< of each submission in `records_`
  std::set<std::pair<std::size_t, std::string>> seen_;  ///< record and check
};

}  // namespace

std::span<const std::string_view> readings_columns() { return columns; }

Result<std::vector<Record>> read_readings(std::string_view text, const std::string& file,
                                          std::span<const Record> known) {
  return Table(text, file, known).read();
}

}  // namespace rangecheck::history
