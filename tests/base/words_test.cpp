// SPDX-License-Identifier: MIT
#include "base/words.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "scratch.hpp"

namespace rangecheck {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view small = R"(version: 1
language: en
greeting:
  plain: Good morning, {name}.
  checks: { one: "{count} check of {name}", other: "{count} checks of {name}" }
)";

Words small_words() { return *read_words(std::string(small), "words/en.yaml"); }

Result<Words> over_small(const std::string& sections) {
  const Words words = small_words();
  return read_words("version: 1\nlanguage: en\n" + sections, "words/en.yaml", &words);
}

TEST_CASE("words: places are filled, and a filling is never read as a place") {
  const Words words = small_words();
  CHECK(words.language() == "en");
  CHECK(words.say("greeting.plain", {{"name", "Ann"}}) == "Good morning, Ann.");
  CHECK(words.say("greeting.plain", {{"name", "{count}{name}"}}) == "Good morning, {count}{name}.");
  CHECK(words.say(1, "greeting.checks", {{"name", "Ann"}}) == "1 check of Ann");
  CHECK(words.say(2, "greeting.checks", {{"name", "Ann"}}) == "2 checks of Ann");
  CHECK(words.say(0, "greeting.checks", {{"name", "Ann"}}) == "0 checks of Ann");
  CHECK(words.say("greeting.none") == "<greeting.none>");
  CHECK(words.say_or("greeting.none", "else") == "else");
}

TEST_CASE("words: a coach's file changes what it names and keeps the rest") {
  const auto words = over_small("greeting: { plain: \"Hello {name}!\" }\n");
  REQUIRE(words);
  CHECK(words->say("greeting.plain", {{"name", "Ann"}}) == "Hello Ann!");
  CHECK(words->say(2, "greeting.checks", {{"name", "Ann"}}) == "2 checks of Ann");
}

TEST_CASE("words: what a file can't mean is refused with its line") {
  struct Case {
    std::string sections, what, key;
    int line;
  };
  const Case cases[] = {
      {"greeting: { plian: Hello }\n", "there is no such sentence", "greeting.plian", 3},
      {"greeting:\n  plain: Hello {nmae}\n", "there is no place \"{nmae}\" in it", "greeting.plain",
       4},
      {"greeting:\n  plain: [a, b]\n", "is no sentence", "greeting.plain", 4},
      {"greeting:\n  plain: \"\"\n", "is empty", "greeting.plain", 4},
      {"greeting:\n  plain: \"a\\u202eb\"\n", "has characters that aren't text", "greeting.plain",
       4},
  };
  for (const auto& [sections, what, key, line] : cases) {
    CAPTURE(sections);
    const auto words = over_small(sections);
    REQUIRE_FALSE(words);
    CHECK(words.error().what == what);
    CHECK(words.error().where.key == key);
    CHECK(words.error().where.file == "words/en.yaml");
    CHECK(words.error().where.line == line);
  }
  const auto near = over_small("greeting: { plian: Hello }\n");
  CHECK(near.error().remedy == "did you mean greeting.plain?");
  const auto other = read_words("version: 1\nlanguage: fr\n", "words/en.yaml", &english());
  REQUIRE_FALSE(other);
  CHECK(other.error().where.key == "language");
  CHECK_FALSE(read_words("version: 2\nlanguage: en\n", "words/en.yaml"));
}

TEST_CASE("words: what is built in is what lies in profiles/words") {
  for (const auto language : shipped_languages()) {
    std::ifstream file(std::string(RANGECHECK_SOURCE_DIR "/profiles/words/") +
                       std::string(language) + ".yaml");
    std::stringstream text;
    text << file.rdbuf();
    CHECK(text.str() == shipped_words_text(language));
    CHECK(shipped_words(language).language() == language);
  }
}

TEST_CASE("words: every language has the same sentences with the same places") {
  for (const auto language : shipped_languages()) {
    CAPTURE(language);
    for (const auto& [id, sentence] : english().sentences()) {
      CAPTURE(id);
      REQUIRE(shipped_words(language).has(id));
      const auto& other = shipped_words(language).sentences().find(id)->second;
      CHECK(other.places() == sentence.places());
      CHECK(other.one.has_value() == sentence.one.has_value());
    }
    for (const auto& [id, sentence] : shipped_words(language).sentences()) {
      CAPTURE(id);
      CHECK((is_from_elsewhere(id) || english().has(id)));
    }
  }
}

TEST_CASE("words: a profiles folder has its own, or the shipped ones") {
  const fs::path folder = fs::temp_directory_path() / "rangecheck-words-test";
  fs::remove_all(folder);
  CHECK(load_words(folder, "de")->say("work.why") == "Warum");
  fs::create_directories(folder / "words");
  std::ofstream(folder / "words/de.yaml") << "version: 1\nlanguage: de\nwork: { why: Wieso }\n";
  CHECK(load_words(folder, "de")->say("work.why") == "Wieso");
  CHECK(load_words(folder, "de")->say("work.aim") == "Ziel");
  CHECK(load_words(folder, "en")->say("work.why") == "Why");
  std::ofstream(folder / "words/de.yaml") << "version: 1\nlanguage: de\nwork: { wyh: Wieso }\n";
  const auto wrong = load_words(folder, "de");
  REQUIRE_FALSE(wrong);
  CHECK(wrong.error().fault == Fault::bad_profile);
  fs::remove_all(folder);
}

TEST_CASE("hostile words: what would grow, go on for ever or hold up the night") {
  const test::Scratch scratch;
  const fs::path file = scratch.path / "words/de.yaml";
  fs::create_directories(file.parent_path());
  const auto error_of = [&](const std::string& text) {
    std::ofstream(file) << text;
    const auto words = load_words(scratch.path, "de");
    REQUIRE_FALSE(words);
    CHECK(words.error().fault == Fault::bad_profile);
    return to_string(words.error());
  };
  CHECK(error_of("a: &a [x]\nb: [*a, *a]\n") ==
        "words/de.yaml:2: YAML aliases (*name) are not accepted (write the value out)");
  CHECK(error_of("version: 1\nlanguage: de\nwork: " + std::string(200'000, '{')) ==
        "words/de.yaml:3: is nested more than 32 deep");
  CHECK(error_of(std::string((1u << 20) + 1, '#')) ==
        "words/de.yaml: is larger than 1 MiB (check that it is the right file)");
  CHECK(error_of("version: 1\nlanguage: de\n" + std::string(200'000, 'x') + ": y\n").size() < 300);
  fs::remove(file);
  REQUIRE(::mkfifo(file.c_str(), 0600) == 0);
  CHECK(to_string(load_words(scratch.path, "de").error()) == "words/de.yaml: isn't a file");
}

}  // namespace
}  // namespace rangecheck
