// SPDX-License-Identifier: MIT
#include "report/xlsx.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <utility>

#include "report/present.hpp"

namespace rangecheck::report {
namespace {

/// What Office Open XML programs hold in a sheet and in a cell ("Excel specifications and limits").
constexpr std::size_t most_rows = LXW_ROW_MAX - 1;  // without the header
constexpr std::size_t most_text = 32767;

/// In characters; what is wider could not be read on one printed page. Tried on landscape A4.
constexpr int widest_page = 300;

/// The first day that a zip knows. With the time of now no two runs would write the same bytes.
constexpr time_t created = 315532800;  // 1980-01-01T00:00:00Z

struct Colours {
  lxw_color_t fill, font;
  bool bold;
};

/// Tints of the Okabe-Ito palette (bluish green 30 %, sky blue 45 %, orange 45 %, reddish purple
/// 45 %, yellow 30 %, the rest white), which readers with any colour vision tell apart; font and
/// fill differ by 7:1 at least (WCAG 2.2, 1.4.6).
Colours colours_of(Tint tint) {
  switch (tint) {
    case Tint::good:
      return {0xB3E2D5, LXW_COLOR_BLACK, false};
    case Tint::low:
      return {0xB3DDF5, LXW_COLOR_BLACK, true};
    case Tint::high:
      return {0xF4D48C, LXW_COLOR_BLACK, true};
    case Tint::other:
      return {0xE8C3D7, LXW_COLOR_BLACK, true};
    case Tint::doubtful:
      return {0xFAF7C6, LXW_COLOR_BLACK, false};
    case Tint::missing:
      return {0xF0F0F0, 0x404040, false};
  }
  return {0xFFFFFF, LXW_COLOR_BLACK, false};
}

/// Code units of UTF-16 that one code point takes, by the first byte of its UTF-8.
std::size_t units_of(unsigned char first) { return first >= 0xF0 ? 2 : 1; }

bool is_continuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// `text` if it fits, else as much as does with "…" after it.
std::string shortened(std::string_view text) {
  std::size_t units = 0, fits = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_continuation(text[i])) continue;
    if (units < most_text) fits = i;  // the mark of a cut text goes here
    units += units_of(static_cast<unsigned char>(text[i]));
  }
  return units <= most_text ? std::string(text) : std::string(text.substr(0, fits)) + "…";
}

/// Height, in points, of a row of wrapped texts in columns `widths` wide: not every program finds
/// it by itself. A word that does not fit leaves a tenth of a line empty.
double height_of(const std::vector<std::string>& texts, const std::vector<int>& widths) {
  double most_lines = 1;
  for (std::size_t i = 0; i < texts.size(); ++i)
    most_lines =
        std::max(most_lines, std::ceil(static_cast<double>(columns(texts[i])) / (0.9 * widths[i])));
  // No spreadsheet has higher rows than 409 points.
  return std::min(LXW_DEF_ROW_HEIGHT * most_lines, 409.0);
}

/// Whether `text` begins with an underscore that a reader takes for the start of "_x0041_".
bool begins_code(std::string_view text) {
  return text.size() >= 7 && text[1] == 'x' && text[6] == '_' &&
         text.substr(2, 4).find_first_not_of("0123456789abcdefABCDEF") == std::string_view::npos;
}

/// `workbook_close` without what the library prints on stderr of its own when it fails, which is no
/// other reader's form and names folders.
lxw_error silently_closed(lxw_workbook* book) {
  std::fflush(stderr);
  const int kept = ::fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, 0);
  const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
  if (kept >= 0 && nowhere >= 0) ::dup2(nowhere, STDERR_FILENO);
  const lxw_error error = workbook_close(book);
  std::fflush(stderr);
  if (kept >= 0) ::dup2(kept, STDERR_FILENO);
  for (const int opened : {kept, nowhere})
    if (opened >= 0) ::close(opened);
  return error;
}

}  // namespace

std::string workbook_text(std::string_view text) {
  std::string written;
  const std::string whole = shortened(text);
  for (std::size_t i = 0; i < whole.size(); ++i) {
    if (whole[i] == '_' && begins_code(std::string_view(whole).substr(i)))
      written += "_x005F_";
    else
      written += whole[i];
  }
  return written;
}

std::string first_cell(std::size_t column) {
  std::array<char, LXW_MAX_CELL_NAME_LENGTH> name{};
  lxw_rowcol_to_cell_abs(name.data(), 1, static_cast<lxw_col_t>(column), LXW_FALSE, LXW_TRUE);
  return name.data();
}

Sheet::Sheet(Xlsx& book, std::string name, const std::vector<Column>& columns, bool wrapped)
    : book_(book),
      sheet_(book.book_ ? workbook_add_worksheet(book.book_, name.c_str()) : nullptr),
      name_(std::move(name)),
      wrapped_(wrapped) {
  if (!sheet_) {
    book_.note(LXW_ERROR_CREATING_TMPFILE);
    return;
  }
  std::vector<std::string> titles;
  for (const auto& column : columns) {
    titles.push_back(workbook_text(titled(column)));
    widths_.push_back(column.width);
  }
  book_.note(worksheet_set_row(sheet_, 0, height_of(titles, widths_), nullptr));
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const auto at = static_cast<lxw_col_t>(i);
    book_.note(worksheet_set_column(sheet_, at, at, widths_[i], nullptr));
    book_.note(worksheet_write_string(sheet_, 0, at, titles[i].c_str(), book_.header_));
    ++cells_;
  }
  worksheet_freeze_panes(sheet_, 1, 1);
  worksheet_set_landscape(sheet_);
  book_.note(worksheet_repeat_rows(sheet_, 0, 0));
  if (std::accumulate(widths_.begin(), widths_.end(), 0) <= widest_page)
    worksheet_fit_to_pages(sheet_, 1, 0);
}

void Sheet::write_cell(lxw_col_t column, const Cell& cell) {
  const auto row = static_cast<lxw_row_t>(rows_ + 1);
  lxw_error error = LXW_NO_ERROR;
  if (const auto* text = std::get_if<std::string>(&cell)) {
    error = worksheet_write_string(sheet_, row, column, workbook_text(*text).c_str(),
                                   wrapped_ ? book_.wrapped_text_ : book_.text_);
  } else if (const auto* number = std::get_if<Number>(&cell)) {
    error = worksheet_write_number(sheet_, row, column, number->value,
                                   book_.number_format(number->decimals));
  } else if (const auto* date = std::get_if<Date>(&cell)) {
    lxw_datetime day = {date->year, date->month, date->day, 0, 0, 0};
    error = worksheet_write_datetime(sheet_, row, column, &day, book_.date_);
  } else {
    return;
  }
  book_.note(error);
  ++cells_;
}

void Sheet::write(const Cells& row) {
  if (!sheet_) return;
  if (rows_ == most_rows) {
    ++left_off_;
    return;
  }
  if (wrapped_) {
    std::vector<std::string> texts(row.size());
    for (std::size_t i = 0; i < row.size(); ++i)
      if (const auto* text = std::get_if<std::string>(&row[i])) texts[i] = *text;
    book_.note(worksheet_set_row(sheet_, static_cast<lxw_row_t>(rows_ + 1),
                                 height_of(texts, widths_), nullptr));
  }
  for (std::size_t i = 0; i < row.size(); ++i) write_cell(static_cast<lxw_col_t>(i), row[i]);
  ++rows_;
}

void Sheet::tint_word(std::size_t column, std::string_view word, Tint tint) {
  rules_.push_back({column, fmt::format("\"{}\"", word), true, tint});
}

void Sheet::tint_where(std::size_t column, const std::string& formula, Tint tint) {
  rules_.push_back({column, formula, false, tint});
}

/// Filter and tints, which need to know how many rows there are.
void Sheet::finish() {
  if (!sheet_ || widths_.empty()) return;
  const auto last_row = static_cast<lxw_row_t>(rows_);
  const auto last_column = static_cast<lxw_col_t>(widths_.size() - 1);
  book_.note(worksheet_autofilter(sheet_, 0, 0, last_row, last_column));
  if (rows_ == 0) return;
  // Ids may be all digits and are text all the same.
  std::array<char, LXW_MAX_CELL_RANGE_LENGTH> everywhere{};
  lxw_rowcol_to_range(everywhere.data(), 1, 0, last_row, last_column);
  book_.note(worksheet_ignore_errors(sheet_, LXW_IGNORE_NUMBER_STORED_AS_TEXT, everywhere.data()));
  for (auto& rule : rules_) {
    lxw_conditional_format where = {};
    where.type = rule.is_word ? LXW_CONDITIONAL_TYPE_CELL : LXW_CONDITIONAL_TYPE_FORMULA;
    where.criteria = LXW_CONDITIONAL_CRITERIA_EQUAL_TO;
    where.value_string = rule.value.data();
    where.format = book_.tint_format(rule.tint);
    const auto at = static_cast<lxw_col_t>(rule.column);
    book_.note(worksheet_conditional_format_range(sheet_, 1, at, last_row, at, &where));
  }
}

Xlsx::Xlsx(const std::filesystem::path& file) : file_(file) {
  std::string folder = file.parent_path().string();
  lxw_workbook_options options = {};
  options.constant_memory = LXW_TRUE;
  options.tmpdir = folder.data();
  book_ = workbook_new_opt(file.c_str(), &options);
  if (!book_) {
    note(LXW_ERROR_MEMORY_MALLOC_FAILED);
    return;
  }
  std::string title = "rangecheck";
  lxw_doc_properties properties = {};
  properties.title = title.data();
  properties.created = created;
  note(workbook_set_properties(book_, &properties));
  header_ = cell_format("");
  format_set_bold(header_);
  format_set_text_wrap(header_);
  format_set_bottom(header_, LXW_BORDER_MEDIUM);
  format_set_bg_color(header_, 0xE6E6E6);
  // "@" is text, so that a cell that begins with = stays text even when somebody edits it.
  text_ = cell_format("@");
  format_set_indent(text_, 1);  // off the number on its left
  wrapped_text_ = cell_format("@");
  format_set_text_wrap(wrapped_text_);
  date_ = cell_format("yyyy-mm-dd");
  format_set_align(date_, LXW_ALIGN_CENTER);
}

Xlsx::~Xlsx() {
  if (book_) lxw_workbook_free(book_);
}

void Xlsx::note(lxw_error error) {
  if (error_ == LXW_NO_ERROR) error_ = error;
}

lxw_format* Xlsx::cell_format(const std::string& shown_as) {
  lxw_format* format = workbook_add_format(book_);
  if (!shown_as.empty()) format_set_num_format(format, shown_as.c_str());
  format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
  return format;
}

lxw_format* Xlsx::number_format(std::optional<int> decimals) {
  const auto [found, is_new] = numbers_.try_emplace(decimals, nullptr);
  if (!is_new) return found->second;
  const std::string digits(static_cast<std::size_t>(decimals.value_or(0)), '0');
  return found->second = cell_format(!decimals ? "" : digits.empty() ? "0" : "0." + digits);
}

lxw_format* Xlsx::tint_format(Tint tint) {
  const auto [found, is_new] = tints_.try_emplace(tint, nullptr);
  if (!is_new) return found->second;
  const auto [fill, font, bold] = colours_of(tint);
  found->second = workbook_add_format(book_);
  format_set_bg_color(found->second, fill);
  format_set_font_color(found->second, font);
  if (bold) format_set_bold(found->second);
  return found->second;
}

Sheet& Xlsx::add_sheet(std::string name, const std::vector<Column>& columns, bool wrapped) {
  sheets_.push_back(Sheet(*this, std::move(name), columns, wrapped));
  return sheets_.back();
}

Result<Nothing> Xlsx::close() {
  std::vector<std::size_t> cells;
  for (auto& sheet : sheets_) {
    sheet.finish();
    cells.push_back(sheet.cells());
  }
  note(book_ ? silently_closed(std::exchange(book_, nullptr)) : LXW_ERROR_MEMORY_MALLOC_FAILED);
  const auto failed = [&](std::string what) {
    return Error{
        Fault::io, "can't write the workbook: " + std::move(what),
        rangecheck::Place{.file = file_.filename().string(), .line = {}, .frame = {}, .key = {}},
        "make room on the disk, or make it writable, and run again"};
  };
  if (error_ != LXW_NO_ERROR) return failed(lxw_strerror(error_));
  if (!is_whole(file_, cells)) return failed("some of it got lost on the way to the disk");
  return Nothing{};
}

}  // namespace rangecheck::report
