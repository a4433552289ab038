// SPDX-License-Identifier: MIT
// What profiles say, on pages of another language.
#include <doctest/doctest.h>

#include "all_written.hpp"
#include "example.hpp"
#include "grade/filming.hpp"
#include "report/html.hpp"

namespace rangecheck::report {
namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// `words` with one translation.
Words with_pair(const Words& words, const std::string& from, const std::string& to) {
  return *with_advice(words,
                      "version: 1\nlanguage: " + words.language() + "\nsentences:\n  - " + from +
                          "\n    " + words.language() + ": " + to + "\n",
                      "words/advice/" + words.language() + ".yaml");
}

TEST_CASE("advice: German has all that the shipped profiles say, and nothing that none says") {
  const auto profiles = grade::load_profiles(RANGECHECK_SOURCE_DIR "/profiles");
  REQUIRE(profiles);
  const auto written = test::all_written(*profiles);
  const auto& german = shipped_words("de").advice();
  CHECK(written.size() > 500);
  for (const auto& sentence : written) {
    CAPTURE(sentence);
    CHECK(german.contains(sentence));
  }
  for (const auto& [sentence, told] : german) {
    CAPTURE(sentence);
    CHECK(written.contains(sentence));
    // What a profile says has no places: neither may what it is told as.
    CHECK(sentence.find_first_of("{}") == std::string::npos);
    CHECK(told.find_first_of("{}") == std::string::npos);
  }
}

TEST_CASE("advice: a German caution keeps the pain and the professional of the English one") {
  for (const auto& [sentence, told] : shipped_words("de").advice()) {
    CAPTURE(sentence);
    CHECK(has(sentence, "licensed professional") == has(told, "medizinische Fachkraft"));
    if (has(sentence, " hurts")) CHECK((has(told, "wehtut") || has(told, "wehtun")));
    if (has(sentence, "any pain")) CHECK(has(told, "hör bei jedem Schmerz auf"));
    if (has(sentence, "first pain")) CHECK(has(told, "hör beim ersten Schmerz auf"));
    if (has(sentence, "Stop if"))
      CHECK((has(told, "Hör auf, wenn") || has(told, "Hör sofort auf, wenn")));
    if (has(sentence, "Mind an old")) CHECK(has(told, "Gib auf eine alte"));
  }
}

TEST_CASE("advice: a German page tells it in German, and marks what it has no German for") {
  const Graded graded = example_graded();
  const Words german =
      with_pair(shipped_words("de"), "en: A narrow base lets you sway.", "Eng schwankt man.");
  const auto page = student_html(graded, "in", german);
  CHECK(has(page, "<dd>Eng schwankt man. Gut möglich"));
  CHECK(has(page, "<dd><span lang=\"en\">Set a club between your heels.</span></dd>"));
  CHECK(has(page,
            "<li><span lang=\"en\">stiff hips</span> (<span lang=\"en\">a narrower stance is "
            "enough</span>): Heel gap 14 bis 15 Zoll statt 15 bis 16 Zoll</li>"));
  const auto text = student_text(graded, "in", german);
  CHECK(has(text, "Eng schwankt man."));
  CHECK(has(text, "Set a club between your heels."));
  CHECK_FALSE(has(student_html(graded), "<span lang"));
}

TEST_CASE("advice: a coach's own sentence stays as it is, with no other's translation beside it") {
  Graded graded = example_graded();
  auto& words = graded.grade.results.front().check.words;
  words.low = "The heels are too close together for this club, so there is little to turn against.";
  words.drill = "Lay two tees on the ground. Seven times.";
  words.inside = {"Les talons sont bien.", "fr"};
  words.caution = {"Hör bei Schmerz auf.", "de"};
  const auto page = student_html(graded, "in", shipped_words("de"));
  CHECK(has(page, "<dd>Die Fersen stehen für diesen Schläger zu eng beieinander;"));
  CHECK(has(page, "<dd><span lang=\"en\">Lay two tees on the ground. Seven times.</span></dd>"));
  CHECK(has(page, "<dd><span lang=\"fr\">Les talons sont bien.</span></dd>"));
  CHECK(has(page, "<dd>Hör bei Schmerz auf.</dd>"));
  CHECK(has(student_html(graded), "<dd><span lang=\"de\">Hör bei Schmerz auf.</span></dd>"));
}

TEST_CASE("advice: names and words of profiles are told as well") {
  Graded graded = example_graded();
  graded.grade.results.front().check.title = "Lead thumb on the grip";
  const auto page = student_text(graded, "in", shipped_words("de"));
  CHECK(has(page, "verglichen mit: Mittleres Eisen, voller Schwung\n"));
  CHECK(has(page, "Vorderer Daumen am Griff: 11,0"));
  // Wanted and seen, as a profile accepts it; a word that it does not know stays as it was noted.
  graded.grade.results.back().word = "Trail side";
  CHECK(has(student_text(graded, "in", shipped_words("de")),
            "Lead thumb                         auf der hinteren Seite"));
  graded.grade.results.back().word = "Palm Side";
  CHECK(has(student_text(graded, "in", shipped_words("de")),
            "Lead thumb                         Palm Side"));
}

TEST_CASE("advice: a coach's own words about films are translated by the sentence too") {
  Graded graded = example_graded();
  auto& judged = graded.films.front().judged.front();
  judged.verdict = grade::FilmVerdict::poor;
  judged.criterion.when_poor = "no feet";
  judged.criterion.advice = "Show your feet.";
  const Words german = with_pair(shipped_words("de"), "en: Show your feet.", "Zeig die Füße.");
  const auto page = student_text(graded, "in", german);
  CHECK(has(page, "no feet"));
  CHECK(has(page, "Zeig die Füße."));
}

}  // namespace
}  // namespace rangecheck::report
