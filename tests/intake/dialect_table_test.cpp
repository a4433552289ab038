// SPDX-License-Identifier: MIT
// Every form that is read, written by the project's own writers and read back. What the test has
// established is the table in README.
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>

#include "fixture.hpp"
#include "intake/dialects/forms.hpp"
#include "read_back.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;
using samples::Dialect;
using samples::Scene;

namespace {

std::string in_lines(const std::vector<std::string>& words) {
  constexpr std::size_t most = 8;
  std::string text;
  for (std::size_t i = 0; i < std::min(words.size(), most); ++i) text += "\n  " + words[i];
  return text;
}

/// The first form that takes the document, as the reader asks them.
std::string form_of(Value document) {
  for (const Form* form : all_forms()) {
    if (form->recognises(document)) return std::string(form->id);
  }
  return "none";
}

/// True when each file that holds anything is taken for the form it was written in.
bool is_recognised(const Dialect& dialect, const Scene& scene) {
  for (const auto& [name, text] : dialect.write(scene)) {
    const Document document(text, Spot(name));
    if (!document.root().is_empty() && form_of(document.root()) != dialect.form) return false;
  }
  return true;
}

/// What reading back has established of the entries of one row.
struct Row {
  std::string title;
  std::set<std::size_t> counts;  ///< of points
  bool recognised = true;
  bool people = false, missing = false, space = false, hands = false;
};

std::string cell(bool established) { return established ? "yes" : "–"; }

std::string line_of(const Row& row) {
  return fmt::format("| {} | {} | {} | {} | {} | {} | {} |", row.title, fmt::join(row.counts, ", "),
                     cell(row.recognised), cell(row.people), cell(row.missing), cell(row.space),
                     cell(row.hands));
}

/// Adds to the row what has come back and been held against the scene.
void establish(const Dialect& dialect, const Film& film, Row& row) {
  row.counts.insert(dialect.points.size());
  row.missing = row.missing || dialect.holds.missing;
  for (const auto& frame : film.frames) {
    row.people = row.people || frame.people.size() > 1;
    for (const auto& person : frame.people) {
      row.hands = row.hands || (person.image.has(lead(Joint::thumb_4)) &&
                                person.image.has(trail(Joint::thumb_4)));
      row.space = row.space || person.space.has(lead(Joint::hip));
    }
  }
}

Row& row_for(const Dialect& dialect, std::vector<Row>& rows) {
  const auto same = [&](const Row& row) { return row.title == dialect.title; };
  const auto found = std::find_if(rows.begin(), rows.end(), same);
  if (found != rows.end()) return *found;
  return rows.emplace_back(Row{std::string(dialect.title), {}});
}

/// The lines of README's table below its head.
std::vector<std::string> table_in_readme() {
  std::ifstream stream(std::string(RANGECHECK_SOURCE_DIR) + "/README.md");
  std::vector<std::string> lines;
  bool inside = false;
  for (std::string line; std::getline(stream, line);) {
    if (inside && line.starts_with("|---")) continue;
    if (inside && !line.starts_with("|")) break;
    if (inside) lines.push_back(line);
    if (line.starts_with("| written as |")) inside = true;
  }
  return lines;
}

}  // namespace

TEST_CASE("dialects: what is written comes back, and README's table says so") {
  const Scene scene = samples::made_up_scene();
  std::vector<Row> rows;
  for (const Dialect& dialect : samples::all_dialects()) {
    CAPTURE(dialect.title);
    CAPTURE(dialect.form);
    CAPTURE(dialect.points.size());
    Row& row = row_for(dialect, rows);
    row.recognised = row.recognised && is_recognised(dialect, scene);
    CHECK(row.recognised);
    const auto film = read_back(dialect, scene);
    if (!film) FAIL_CHECK(to_string(film.error()));
    if (!film) continue;
    const auto different = differences(dialect, scene, *film);
    CHECK_MESSAGE(different.empty(), different.size(), " differences:", in_lines(different));
    if (different.empty()) establish(dialect, *film, row);
  }
  std::vector<std::string> table;
  for (const Row& row : rows) table.push_back(line_of(row));
  const std::string printed = fmt::format("\n{}", fmt::join(table, "\n"));
  CHECK_MESSAGE(table_in_readme() == table, "README should have", printed);
}

TEST_CASE("dialects: one is written in every form that is read") {
  std::set<std::string_view> written;
  for (const Dialect& dialect : samples::all_dialects()) written.insert(dialect.form);
  for (const Form* form : all_forms()) {
    CAPTURE(form->id);
    CHECK(written.contains(form->id));
  }
}
