// SPDX-License-Identifier: MIT
// What openpyxl cannot show; the cells themselves are read in read_workbook.py.
#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>

#include "base/read_file.hpp"
#include "example.hpp"
#include "report/xlsx.hpp"
#include "scratch.hpp"

namespace rangecheck::report {
namespace {

namespace fs = std::filesystem;
using test::Scratch;

std::string repeated(std::string_view text, std::size_t times) {
  std::string out;
  for (std::size_t i = 0; i < times; ++i) out += text;
  return out;
}

/// A sheet of `rows` rows of ten cells, written to `file`.
Result<Nothing> write_rows(const fs::path& file, std::size_t rows) {
  Xlsx book(file);
  Sheet& sheet = book.add_sheet("Rows", std::vector<Column>(10, Column{"text", "", ""}));
  const Cells row(10, text_cell("as long as the words of a page are on the average"));
  for (std::size_t i = 0; i < rows; ++i) sheet.write(row);
  return book.close();
}

/// What `write_rows` comes to in a process that may make no file larger than `limit`: exit code 0
/// for a workbook, 1 for an error.
int write_rows_within(rlim_t limit, const fs::path& file, std::size_t rows) {
  const pid_t child = ::fork();
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limits{limit, limit};
    ::setrlimit(RLIMIT_FSIZE, &limits);
    ::_exit(write_rows(file, rows) ? 0 : 1);
  }
  int status = -1;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST_CASE("a text that is too long for a cell is cut between characters, and says so") {
  CHECK(workbook_text(repeated("x", 32767)) == repeated("x", 32767));
  CHECK(workbook_text(repeated("x", 32768)) == repeated("x", 32766) + "…");
  CHECK(workbook_text(repeated("é", 32768)) == repeated("é", 32766) + "…");
  // Two UTF-16 units each: 16,383 of them and the mark are 32,767.
  CHECK(workbook_text(repeated("🏌", 16383)) == repeated("🏌", 16383));
  CHECK(workbook_text(repeated("🏌", 16384)) == repeated("🏌", 16383) + "…");
  CHECK(workbook_text("a" + repeated("🏌", 16384)) == "a" + repeated("🏌", 16382) + "…");
}

TEST_CASE("what looks like the code of a character is no code") {
  // ISO/IEC 29500-1, 22.9.2.19
  CHECK(workbook_text("_x003D_1") == "_x005F_x003D_1");
  CHECK(workbook_text("_x005F_x003D_") == "_x005F_x005F_x005F_x003D_");
  CHECK(workbook_text("_x00g0_ _x00 _X0041_ _") == "_x00g0_ _x00 _X0041_ _");
}

TEST_CASE("a day that the calendar has is a date, any other stays text") {
  Graded graded = example_graded();
  const auto received = [&](const char* text) {
    graded.received = text;
    return submission_row(entry_of(graded).summary)[2];
  };
  const auto date = received("2026-03-14T18:22:00+02:00");
  REQUIRE(std::holds_alternative<Date>(date));
  CHECK(std::get<Date>(date).year == 2026);
  CHECK(std::get<Date>(date).month == 3);
  CHECK(std::get<Date>(date).day == 14);
  CHECK(std::holds_alternative<Date>(received("2024-02-29")));
  CHECK(std::get<std::string>(received("2023-02-29")) == "2023-02-29");
  CHECK(std::get<std::string>(received("1899-12-31")) == "1899-12-31");
  CHECK(std::holds_alternative<std::monostate>(received("")));
}

TEST_CASE("numbers have six digits, and none is not finite") {
  CHECK(std::get<Number>(number_cell(1.0 / 3)).value == 0.333333);
  CHECK(std::get<Number>(number_cell(-1234567.0)).value == -1234570.0);
  CHECK(std::holds_alternative<std::monostate>(
      number_cell(std::numeric_limits<double>::quiet_NaN())));
  CHECK(
      std::holds_alternative<std::monostate>(number_cell(std::numeric_limits<double>::infinity())));
}

TEST_CASE("rows that a sheet has no room for are counted") {
  const Scratch scratch;
  Xlsx book(scratch.path / "a.xlsx");
  Sheet& sheet = book.add_sheet("Rows", {{"n", "", ""}});
  // 1,048,576 rows a sheet, one of them the header: "Excel specifications and limits".
  for (int i = 0; i < 1048580; ++i) sheet.write({number_cell(1)});
  CHECK(sheet.rows() == 1048575);
  CHECK(sheet.left_off() == 5);
  CHECK(book.close());
}

TEST_CASE("the same night gives the same bytes") {
  const Scratch scratch;
  const Graded graded[] = {example_graded(), example_swing()};
  const SetAside set_aside[] = {example_set_aside()};
  std::string written[2];
  for (auto& bytes : written) {
    const auto file = scratch.path / "a.xlsx";
    REQUIRE(write_workbook(file, entries_of(graded), set_aside));
    bytes = *read_file(file, "a.xlsx");
    fs::remove(file);
  }
  CHECK(written[0] == written[1]);
  CHECK(fs::is_empty(scratch.path));
}

TEST_CASE("a file that lost something on the way to the disk is an error") {
  const Scratch scratch;
  const auto file = scratch.path / "a.xlsx";
  // 20,000 cells are some 2 MB of XML and, zipped, some 50 kB: with room for the latter alone the
  // library sees no fault and leaves out most of the rows.
  const std::size_t rows = 2000;
  const rlim_t some = 1 << 20, plenty = 1 << 26;
  CHECK(write_rows_within(plenty, file, rows) == 0);
  CHECK(write_rows_within(some, file, rows) == 1);
  CHECK(write_rows_within(1 << 10, file, rows) == 1);
  const auto nowhere = write_rows(scratch.path / "nowhere" / "a.xlsx", 1);
  REQUIRE_FALSE(nowhere);
  CHECK(nowhere.error().fault == Fault::io);
}

TEST_CASE("what is no whole workbook is seen to be none") {
  const Scratch scratch;
  const auto file = scratch.path / "a.xlsx";
  REQUIRE(write_rows(file, 3));
  CHECK(is_whole(file, {40}));
  CHECK_FALSE(is_whole(file, {39}));
  CHECK_FALSE(is_whole(file, {40, 0}));
  CHECK_FALSE(is_whole(scratch.path / "b.xlsx", {}));
  std::string bytes = *read_file(file, "a.xlsx");
  std::ofstream(file, std::ios::binary) << bytes.substr(0, bytes.size() - 30);
  CHECK_FALSE(is_whole(file, {40}));
  bytes[bytes.size() / 4] ^= 1;
  std::ofstream(file, std::ios::binary) << bytes;
  CHECK_FALSE(is_whole(file, {40}));
}

}  // namespace
}  // namespace rangecheck::report
