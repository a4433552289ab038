// SPDX-License-Identifier: MIT
// Catalogues against the pages that speak from them, and against the rooms whose words they hold.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "base/text.hpp"
#include "example.hpp"
#include "grade/reading.hpp"
#include "pose/side_pairs.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

namespace fs = std::filesystem;

/// Ids made at run time of the names of something.
std::set<std::string> ids_by_name() {
  std::set<std::string> ids;
  for (const std::string symbol : {"deg", "rad", "in", "ft", "m", "cm", "mm", "s", "ms", "%"}) {
    CHECK(find_unit(symbol));
    ids.insert("units." + symbol);
  }
  for (const Position position : all_positions)
    for (const auto* part : {".title", ".when"})
      ids.insert("positions." + std::string(id_of(position)) + part);
  for (int region = 0; region <= static_cast<int>(measure::Region::timing); ++region)
    ids.insert("regions." + std::string(measure::name_of(static_cast<measure::Region>(region))));
  for (const auto* kind : {"full", "pitch", "chip", "bunker", "putt"})
    ids.insert(std::string("swings.") + kind);
  for (std::size_t i = 0; i < landmark_count; ++i)
    ids.insert("joints." + std::string(key_of(landmark_at(i).joint)));
  for (std::size_t pair = 0; pair < pose::pair_count; ++pair)
    ids.insert(pose::names_of(1U << pair).front().id);
  for (const auto view : {intake::View::face_on, intake::View::down_the_line}) {
    ids.insert(intake::view_as_message(view).id);
    ids.insert(intake::film_as_message(view).id);
  }
  for (const auto* part : {"head", "trunk", "arms", "legs", "feet"})
    ids.insert(std::string("detail.parts.") + part);
  return ids;
}

/// "checks.csv" is no id of a sentence.
bool is_file_name(std::string_view literal) {
  const std::set<std::string_view> kinds{"csv", "html", "json", "txt", "xlsx"};
  return kinds.contains(literal.substr(literal.rfind('.') + 1));
}

/// Ids written out in the code; those that a page says in two forms count as both.
std::set<std::string> ids_in_code() {
  std::set<std::string> sections;
  for (const auto& [id, sentence] : english().sentences())
    sections.insert(id.substr(0, id.find('.')));
  std::set<std::string> ids;
  const std::regex literal("\"([a-z]+)(\\.[a-z0-9][a-z0-9.-]*[a-z0-9])\"");
  for (const auto& file : fs::recursive_directory_iterator(RANGECHECK_SOURCE_DIR "/lib")) {
    if (file.path().extension() != ".cpp" && file.path().extension() != ".hpp") continue;
    std::stringstream text;
    text << std::ifstream(file.path()).rdbuf();
    const std::string code = text.str();
    for (std::sregex_iterator found(code.begin(), code.end(), literal), end; found != end;
         ++found) {
      if (!sections.contains((*found)[1])) continue;
      const std::string id = (*found)[1].str() + (*found)[2].str();
      if (is_file_name(id)) continue;
      if (english().has(id)) {
        ids.insert(id);
      } else {
        ids.insert(id + ".swing");
        ids.insert(id + ".set-up");
      }
    }
  }
  return ids;
}

TEST_CASE("words: every sentence is said somewhere, and none is said that there is not") {
  auto used = ids_in_code();
  used.merge(ids_by_name());
  std::set<std::string> known;
  for (const auto& [id, sentence] : english().sentences()) known.insert(id);
  for (const auto& id : used) {
    CAPTURE(id);
    CHECK(known.contains(id));
  }
  for (const auto& id : known) {
    CAPTURE(id);
    CHECK(used.contains(id));
  }
}

TEST_CASE("words: German has every measure, reading, criterion, club and category") {
  const Words& german = shipped_words("de");
  const auto need = [&](const std::string& id) {
    CAPTURE(id);
    CHECK(german.has(id));
  };
  const auto profiles = grade::load_profiles(RANGECHECK_SOURCE_DIR "/profiles");
  REQUIRE(profiles);
  for (const auto* rule : measure::catalogue()) {
    need("measures." + std::string(rule->id) + ".title");
    need("measures." + std::string(rule->id) + ".sign");
    for (const auto& category : rule->categories) need("categories." + kebab(category.name));
  }
  for (const auto& kind : grade::reading_kinds())
    need("measures." + std::string(kind.id) + ".title");
  for (const auto& [club, family] : profiles->club_families) need("clubs." + club);
  for (const auto view : {intake::View::face_on, intake::View::down_the_line}) {
    for (const auto& one : grade::shipped_filming().of(view)) {
      const std::string id = "filming." + one.id;
      need(id + ".title");
      if (!one.when_fair.empty()) need(id + ".when-fair");
      if (!one.when_poor.empty()) need(id + ".when-poor");
      if (!german.has(id + ".advice")) need(id + ".advice-" + std::string(intake::name_of(view)));
    }
  }
  // And nothing of which there is none: a typing error would never be said.
  CHECK_FALSE(unknown_words(german, *profiles));
}

TEST_CASE("words: a sentence of a measure that there is not is refused") {
  const auto profiles = grade::load_profiles(RANGECHECK_SOURCE_DIR "/profiles");
  const auto words = read_words(
      "version: 1\nlanguage: en\nmeasures: { stance-wdith: { title: How wide you stand } }\n",
      "words/en.yaml", &english());
  REQUIRE(words);
  const auto error = unknown_words(*words, *profiles);
  REQUIRE(error);
  CHECK(error->where.key == "measures.stance-wdith.title");
  CHECK(error->remedy == "did you mean stance-width?");
}

TEST_CASE("words: the English of rules may be said otherwise, a coach's own title stays") {
  Graded graded = example_graded();
  const auto words = read_words(
      "version: 1\nlanguage: en\nmeasures: { heel-gap: { title: Heels apart, sign: wider is more } "
      "}\n",
      "words/en.yaml", &english());
  REQUIRE(words);
  CHECK(student_text(graded, "in", *words).find("Heels apart: 11.0 ± 1.0 in") != std::string::npos);
  CHECK(student_text(graded, "in", *words).find("(wider is more)") != std::string::npos);
  graded.grade.results.front().check.title = "My heel gap";
  CHECK(student_text(graded, "in", *words).find("My heel gap: 11.0") != std::string::npos);
}

TEST_CASE("words: a German page has German numbers, units and nouns, and no line too wide") {
  const Words& german = shipped_words("de");
  const auto page = student_text(example_graded(), "in", german);
  CHECK(page.find("Heel gap: 11,0 ± 1,0 Zoll; gewünscht 14 bis 15 Zoll.") != std::string::npos);
  CHECK(page.find("Gut möglich, dass auch das daher kommt: Shoulder tilt.") != std::string::npos);
  for (const auto& graded :
       {example_graded(), example_without_grade(), example_swing(), example_address_of_swing()}) {
    std::istringstream lines(student_text(graded, "in", german));
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(line);
      CHECK(columns(line) <= 80);
      CHECK(line.find('<') == std::string::npos);
    }
  }
}

}  // namespace
}  // namespace rangecheck::report
