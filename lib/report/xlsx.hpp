// SPDX-License-Identifier: MIT
// An Office Open XML workbook as rangecheck's tables need it: the only place that knows the
// library. Text is always text: nothing that people wrote is ever a formula or a link.
#pragma once

#include <xlsxwriter.h>

#include <deque>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "report/cells.hpp"

namespace rangecheck::report {

/// How cells are set off. Words and numbers in them say the same, so that nobody needs the colours.
enum class Tint { good, low, high, other, doubtful, missing };

class Xlsx;

/// One sheet; its header line stands, rows come in their order and are not kept in memory.
class Sheet {
 public:
  /// Writes the next row. What a sheet has no room for is counted in `left_off` instead.
  void write(const Cells& row);
  /// Tints the cells of `column` that hold just `word`.
  void tint_word(std::size_t column, std::string_view word, Tint tint);
  /// Tints the cells of `column` where `formula`, written for the first row after the header,
  /// holds.
  void tint_where(std::size_t column, const std::string& formula, Tint tint);

  const std::string& name() const { return name_; }
  std::size_t rows() const { return rows_; }  ///< without the header
  std::size_t left_off() const { return left_off_; }
  /// Cells that were written, the header's included.
  std::size_t cells() const { return cells_; }

 private:
  friend class Xlsx;
  Sheet(Xlsx& book, std::string name, const std::vector<Column>& columns, bool wrapped);
  void write_cell(lxw_col_t column, const Cell& cell);
  void finish();

  Xlsx& book_;
  lxw_worksheet* sheet_;
  std::string name_;
  bool wrapped_;             ///< to be read like a page
  std::vector<int> widths_;  ///< in characters
  std::size_t rows_ = 0, left_off_ = 0, cells_ = 0;
  struct Rule {
    std::size_t column;
    std::string value;
    bool is_word;
    Tint tint;
  };
  std::vector<Rule> rules_;
};

class Xlsx {
 public:
  /// `file` and its folder's other files are this workbook's until `close`.
  explicit Xlsx(const std::filesystem::path& file);
  ~Xlsx();
  Xlsx(const Xlsx&) = delete;
  Xlsx& operator=(const Xlsx&) = delete;

  /// `wrapped` sheets are to be read like a page: long text goes on in the next line.
  Sheet& add_sheet(std::string name, const std::vector<Column>& columns, bool wrapped = false);

  /// Writes the file and reads it again: Fault::io when anything is missing from it.
  Result<Nothing> close();

 private:
  friend class Sheet;
  void note(lxw_error error);
  /// `shown_as`: a number format, or "" for the general one.
  lxw_format* cell_format(const std::string& shown_as);
  lxw_format* number_format(std::optional<int> decimals);
  lxw_format* tint_format(Tint tint);

  std::filesystem::path file_;
  lxw_workbook* book_ = nullptr;
  lxw_error error_ = LXW_NO_ERROR;  ///< the first one
  lxw_format *header_ = nullptr, *text_ = nullptr, *wrapped_text_ = nullptr, *date_ = nullptr;
  std::map<std::optional<int>, lxw_format*> numbers_;
  std::map<Tint, lxw_format*> tints_;
  std::deque<Sheet> sheets_;
};

/// "$K2": how a formula names the cell of `column` in its own row, written for the first after the
/// header.
std::string first_cell(std::size_t column);

/// The form in which text goes into a workbook: at most the 32,767 UTF-16 units that a cell has
/// room for, ended by "…" where it was cut, and "_x0041_" written so that no reader takes it for
/// the character that it is the code of (ISO/IEC 29500-1, 22.9.2.19).
std::string workbook_text(std::string_view text);

/// Whether `file` is a zip of XML documents that are all whole, and `cells` in number are in
/// xl/worksheets/sheet1.xml, sheet2.xml and so on. The library does not notice when the disk is
/// full for a while.
bool is_whole(const std::filesystem::path& file, const std::vector<std::size_t>& cells);

}  // namespace rangecheck::report
