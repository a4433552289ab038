// SPDX-License-Identifier: MIT
// What the spreadsheets say, whatever their form: rows of typed cells and what each column means.
// Not for other rooms.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/quantity.hpp"
#include "report/report.hpp"

namespace rangecheck::report {

/// A number with six significant digits: more than any film carries, and the same on every machine.
struct Number {
  double value = 0;
  std::optional<int> decimals;  ///< to be shown where a form can; nothing: as many as there are
};

struct Date {
  int year = 0, month = 0, day = 0;
};

/// Nothing, text as `printable` leaves it, or a value.
using Cell = std::variant<std::monostate, std::string, Number, Date>;
using Cells = std::vector<Cell>;

/// Control characters and broken UTF-8 in `raw` are made visible.
Cell text_cell(std::string_view raw);

/// Decimals of probabilities, shares and scores.
inline constexpr int hundredths = 2;

/// Nothing for a value that is not finite.
Cell number_cell(double value, std::optional<int> decimals = std::nullopt);

/// A value or its uncertainty in `unit`: a digit more than on pages, since people go on reckoning
/// with it.
Cell measured_cell(double si, const Unit& unit);

/// The row as CSV, ended: RFC 4180, cells that a spreadsheet would run made safe.
std::string csv_line(const Cells& cells);

struct Column {
  std::string name;
  std::string unit;     ///< "" where there is none
  std::string meaning;  ///< a sentence; "" where the sheet as a whole is explained
  int width = 12;       ///< in characters that a reader wants to see at once
};

/// "stance-width [in]", or the bare name; as printable as a text cell, since coaches name checks.
std::string titled(const Column& column);

/// One row a check. The value's unit changes from row to row and has a column of its own.
std::vector<Column> check_columns();
std::vector<Cells> check_rows(const Entry& entry, std::string_view length_unit);

/// One row a submission with every check side by side: three columns a check, as `csv_wide` says.
struct Wide {
  std::vector<Column> columns;
  std::vector<std::string> checks;  ///< ids, in the order of the columns
};
Result<Wide> wide_layout(const Entries& all, std::string_view length_unit);
/// Of no submissions: what every layout begins with.
Wide wide_head();
Cells wide_row(const Entry& entry, const Wide& layout, std::string_view length_unit);

/// One row a submission, as the coach's table has it.
std::vector<Column> submission_columns();
Cells submission_row(const Summary& summary);

/// One row a submission that was set aside.
std::vector<Column> set_aside_columns();
Cells set_aside_row(const SetAside& set_aside);

}  // namespace rangecheck::report
