// SPDX-License-Identifier: MIT
// Translations of what profiles say.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/words.hpp"
#include "scratch.hpp"

namespace rangecheck {
namespace {

namespace fs = std::filesystem;

const std::string head = "version: 1\nlanguage: de\nsentences:\n";

Result<Words> german_with(const std::string& pairs) {
  return with_advice(*read_words("version: 1\nlanguage: de\n", "words/de.yaml"), head + pairs,
                     "words/advice/de.yaml");
}

TEST_CASE("advice: a sentence is told in the page's language, another as it is written") {
  const auto words = german_with("  - { en: Stand tall., de: Steh aufrecht. }\n");
  REQUIRE(words);
  CHECK(words->tell("Stand tall.") == Written("Steh aufrecht.", "de"));
  CHECK(words->tell("Stand very tall.") == Written("Stand very tall.", "en"));
  CHECK(words->tell({"Mets-toi droit.", "fr"}) == Written("Mets-toi droit.", "fr"));
  CHECK(words->tell(Written()).empty());
}

TEST_CASE("advice: a later file has the last word, sentence by sentence") {
  const auto first = german_with("  - { en: Up., de: Hoch. }\n  - { en: Down., de: Tief. }\n");
  REQUIRE(first);
  const auto both = with_advice(*first, head + "  - { en: Up., de: Hinauf. }\n", "mine.yaml");
  REQUIRE(both);
  CHECK(both->tell("Up.").text == "Hinauf.");
  CHECK(both->tell("Down.").text == "Tief.");
}

TEST_CASE("advice: what a file can't mean is refused with its line") {
  struct Case {
    std::string pairs, what, key;
    int line;
  };
  const Case cases[] = {
      {"  - { en: Up., de: Hoch. }\n  - { en: Up., de: Hinauf. }\n",
       "is the sentence of sentences[0] again", "sentences[1]", 5},
      {"  - en: Up.\n    de: \"\"\n", "is empty", "sentences[0].de", 5},
      {"  - en: \"\"\n    de: Hoch.\n", "is empty", "sentences[0].en", 4},
      {"  - en: Up.\n", "is missing", "sentences[0].de", 4},
      {"  - de: Hoch.\n", "says no sentence that is translated", "sentences[0]", 4},
      {"  - en: Up.\n    de: Hoch.\n    note: x\n", "there is no such key", "sentences[0].note", 6},
      {"  - en: Up.\n    de: Hoch.\n    fr: Haut.\n", "there is no such key", "sentences[0].fr", 6},
      {"  - Hoch.\n", "should be a map of keys and values, is \"Hoch.\"", "sentences[0]", 4},
      {"  - en: \"a\\u202eb\"\n    de: Hoch.\n", "has characters that aren't text",
       "sentences[0].en", 4},
      {"  en: Up.\n", "should be a list of pairs", "sentences", 3},
      {"  - { en: Up., de: Hoch. }\nsentence: x\n", "there is no such key", "sentence", 5},
  };
  for (const auto& [pairs, what, key, line] : cases) {
    CAPTURE(pairs);
    const auto words = german_with(pairs);
    REQUIRE_FALSE(words);
    CHECK(words.error().what == what);
    CHECK(words.error().where.key == key);
    CHECK(words.error().where.file == "words/advice/de.yaml");
    CHECK(words.error().where.line == line);
  }
  const auto other = with_advice(shipped_words("de"), "version: 1\nlanguage: fr\nsentences: []\n",
                                 "words/advice/de.yaml");
  REQUIRE_FALSE(other);
  CHECK(other.error().where.key == "language");
  CHECK(other.error().what == "should be de");
}

TEST_CASE("advice: tags of languages") {
  for (const auto* tag : {"en", "de", "gsw", "pt-BR", "zh-Hant-TW", "de-1996", "de-CH-x-a"})
    CHECK_MESSAGE(is_language_tag(tag), tag);
  for (const auto* tag : {"", "e", "german", "de_CH", "de-", "-de", "d1", "de-ch!", "de-123456789"})
    CHECK_FALSE_MESSAGE(is_language_tag(tag), tag);
}

TEST_CASE("advice: what is built in is what lies in profiles/words/advice") {
  for (const auto language : shipped_languages()) {
    CAPTURE(language);
    std::ifstream file(std::string(RANGECHECK_SOURCE_DIR "/profiles/words/advice/") +
                       std::string(language) + ".yaml");
    std::stringstream text;
    text << file.rdbuf();
    CHECK(text.str() == shipped_advice_text(language));
    CHECK(shipped_words(language).advice().empty() == (language == "en"));
  }
}

TEST_CASE("advice: a profiles folder's own lies over the shipped one, and has to be right") {
  const test::Scratch scratch;
  const std::string sentence = "Listen for the ball, and look up only then.";
  const auto shipped = load_words(scratch.path, "de");
  REQUIRE(shipped);
  CHECK(shipped->tell(sentence).language == "de");
  fs::create_directories(scratch.path / "words/advice");
  const auto write = [&](const std::string& text) {
    std::ofstream(scratch.path / "words/advice/de.yaml") << text;
    return load_words(scratch.path, "de");
  };
  const auto own = write(head + "  - en: " + sentence + "\n    de: Horch.\n");
  REQUIRE(own);
  CHECK(own->tell(sentence).text == "Horch.");
  CHECK(own->advice().size() == shipped->advice().size());
  CHECK(own->say("work.why") == "Warum");
  CHECK(load_words(scratch.path, "en")->tell(sentence).text == sentence);
  const auto wrong = write(head + "  - { en: Up. }\n");
  REQUIRE_FALSE(wrong);
  CHECK(wrong.error().fault == Fault::bad_profile);
}

TEST_CASE("advice: the hash changes with any sentence and any translation, and with nothing else") {
  const auto one = german_with("  - { en: Up., de: Hoch. }\n");
  CHECK(one->hash() == german_with("  # said otherwise\n  - { de: Hoch., en: Up. }\n")->hash());
  CHECK(one->hash() != german_with("  - { en: Up., de: Hinauf. }\n")->hash());
  CHECK(one->hash() != german_with("  - { en: Up, de: .Hoch. }\n")->hash());
  CHECK(english().hash() != shipped_words("de").hash());
  const auto changed =
      read_words("version: 1\nlanguage: en\nwork: { why: Reason }\n", "words/en.yaml", &english());
  CHECK(changed->hash() != english().hash());
}

// Found by a fuzzer: pairs of what has none were asked for.
TEST_CASE("words: a list or nothing is no catalogue") {
  const auto refusal = [](const char* text) {
    return to_string(read_words(text, "de.yaml", nullptr).error());
  };
  CHECK(refusal("- { en: Up., de: Hoch. }\n") ==
        "de.yaml:1: should be a map of keys and values, is a list");
  CHECK(refusal("") == "de.yaml: should be a map of keys and values, is nothing");
  CHECK(refusal("Up.\n") == "de.yaml:1: should be a map of keys and values, is \"Up.\"");
}

}  // namespace
}  // namespace rangecheck
