// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>

#include "example.hpp"

namespace rangecheck::report {
namespace {

/// Cells of RFC 4180 text, read by the grammar of its section 2 and independent of the writer.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, {""});
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && text.compare(i, 2, "\"\"") == 0) {
      rows.back().back() += text[++i];
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ',') {
      rows.back().emplace_back();
    } else if (!quoted && text.compare(i, 2, "\r\n") == 0) {
      ++i;
      if (i + 1 < text.size()) rows.push_back({""});
    } else {
      rows.back().back() += c;
    }
  }
  return rows;
}

std::string cell(const std::vector<std::vector<std::string>>& rows, std::size_t row,
                 const std::string& column) {
  const auto found = std::find(rows[0].begin(), rows[0].end(), column);
  REQUIRE(found != rows[0].end());
  return rows[row][static_cast<std::size_t>(found - rows[0].begin())];
}

TEST_CASE("cells are quoted where RFC 4180 asks for it") {
  CHECK(csv_cell("plain") == "plain");
  CHECK(csv_cell("") == "");
  CHECK(csv_cell("a,b") == "\"a,b\"");
  CHECK(csv_cell("say \"when\"") == "\"say \"\"when\"\"\"");
  CHECK(csv_cell("two\nlines") == "\"two\nlines\"");
}

TEST_CASE("cells that a spreadsheet would run are made safe, numbers are left alone") {
  CHECK(csv_cell("=1+1") == "'=1+1");
  CHECK(csv_cell("@SUM(A1)") == "'@SUM(A1)");
  CHECK(csv_cell("+HYPERLINK(1)") == "'+HYPERLINK(1)");
  CHECK(csv_cell("-2+3") == "'-2+3");
  CHECK(csv_cell("\tx") == "'\tx");
  CHECK(csv_cell("\r=1") == "\"'\r=1\"");
  CHECK(csv_cell("\n=1") == "\"'\n=1\"");
  CHECK(csv_cell("  =1+1") == "'  =1+1");
  CHECK(csv_cell("＝1+1") == "'＝1+1");
  CHECK(csv_cell("  -1") == "  -1");
  CHECK(csv_cell("   ") == "   ");
  CHECK(csv_cell("-12.5") == "-12.5");
  CHECK(csv_cell("+3") == "+3");
  CHECK(csv_cell("-inf") == "'-inf");
  CHECK(csv_cell("-") == "'-");
}

TEST_CASE("the long form has one row a check with as many cells as the header") {
  const Graded graded = example_graded();
  const auto rows = read_csv(long_text(std::vector{graded}));
  REQUIRE(rows.size() == 1 + graded.grade.results.size());
  for (const auto& row : rows) CHECK(row.size() == rows[0].size());
  CHECK(cell(rows, 1, "check") == "heel-gap");
  CHECK(cell(rows, 1, "value") == "11");
  CHECK(cell(rows, 1, "unit") == "in");
  CHECK(cell(rows, 1, "u") == "0.5");
  CHECK(cell(rows, 1, "low_95") == "10.02");
  CHECK(cell(rows, 1, "band_low") == "14");
  CHECK(cell(rows, 1, "work_on") == "1");
  CHECK(cell(rows, 2, "band_low") == "");
  CHECK(cell(rows, 5, "word") == "trail-side");
  CHECK(cell(rows, 5, "accept") == "trail-side or centre");
}

TEST_CASE("a value that was not seen is in no spreadsheet") {
  const auto rows = read_csv(long_text(std::vector{example_graded()}));
  CHECK(cell(rows, 3, "value") == "");
  CHECK(cell(rows, 3, "u") == "");
  CHECK(cell(rows, 3, "score") == "");
  CHECK(cell(rows, 3, "remedy") != "");
  const Graded all[] = {example_graded()};
  const auto wide = read_csv(wide_text(all));
  CHECK(cell(wide, 1, "hip-turn [deg]") == "");
  CHECK(cell(wide, 1, "hip-turn u [deg]") == "");
}

TEST_CASE("the wide form has the union of all checks as columns") {
  const Graded all[] = {example_graded(), example_without_grade()};
  const auto rows = read_csv(wide_text(all, "cm"));
  REQUIRE(rows.size() == 3);
  for (const auto& row : rows) CHECK(row.size() == rows[0].size());
  CHECK(cell(rows, 1, "heel-gap [cm]") == "27.94");
  CHECK(cell(rows, 1, "grade_percent") == "62");
  CHECK(cell(rows, 1, "work_on") == "heel-gap");
  CHECK(cell(rows, 1, "lead-thumb") == "trail-side");
  CHECK(cell(rows, 2, "heel-gap [cm]") == "");
  CHECK(cell(rows, 2, "grade_percent") == "");
}

TEST_CASE("the long form says where in the swing, and nothing for the swing as a whole") {
  const auto rows = read_csv(long_text(std::vector{example_swing()}));
  CHECK(cell(rows, 1, "position") == "address");
  CHECK(cell(rows, 9, "position") == "top");
  CHECK(cell(rows, 9, "region") == "hips");
  CHECK(cell(rows, 9, "check") == "top/pelvis-shift");
  CHECK(cell(rows, 9, "work_on") == "1");
  CHECK(cell(rows, 20, "position") == "");
  CHECK(cell(rows, 20, "unit") == "s");
  CHECK(cell(rows, 20, "value") == "0.6");
}

TEST_CASE("columns of the wide form go by position and then as the catalogue does") {
  const measure::Rule& first = *measure::catalogue()[0];
  const measure::Rule& second = *measure::catalogue()[1];
  Graded graded = example_graded();
  graded.grade.results = {};
  const auto add = [&](std::string_view rule, std::optional<Position> position) {
    graded.grade.results.push_back(
        swing_result(rule, "Title", Dimension::angle, position, grade::Verdict::inside));
  };
  add(first.id, std::nullopt);
  add("a-coach's-own", Position::top);
  add(second.id, Position::top);
  add(first.id, Position::impact);
  add(first.id, Position::top);
  add(second.id, Position::address);
  const Graded all[] = {graded};
  const auto header = read_csv(wide_text(all))[0];
  const std::string one(first.id), two(second.id);
  std::vector<std::string> ids;
  for (std::size_t i = 8; i < header.size(); i += 3) ids.push_back(header[i]);
  CHECK(ids == std::vector<std::string>{two + " [deg]", "top/" + one + " [deg]",
                                        "top/" + two + " [deg]", "top/a-coach's-own [deg]",
                                        "impact/" + one + " [deg]", one + " [deg]"});
  const Graded swing[] = {example_swing()};
  CHECK(cell(read_csv(wide_text(swing)), 1, "backswing-time [s]") == "0.6");
}

TEST_CASE("what would deceive a reader is visible in cells and in headers") {
  Graded graded = example_graded();
  graded.student = "a\n=1\xff";
  graded.grade.results[0].check.id = "heel\tgap";
  const Graded all[] = {graded};
  const auto wide = read_csv(wide_text(all));
  CHECK(cell(wide, 1, "student") == "a\\n=1\\xff");
  CHECK(cell(wide, 1, "heel\\tgap [in]") == "11");
}

TEST_CASE("the wide form of no submissions is a header") {
  CHECK(read_csv(wide_text({})).size() == 1);
}

}  // namespace
}  // namespace rangecheck::report
