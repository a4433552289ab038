// SPDX-License-Identifier: MIT
// What pages say to people: sentences by id, in one language, with named places for what differs;
// and what profiles say, by the sentence as it is written there. The shipped catalogues are
// profiles/words/LANGUAGE.yaml and profiles/words/advice/LANGUAGE.yaml, built into the program.
#pragma once

#include <filesystem>
#include <initializer_list>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace rangecheck {

/// What goes into the place {name} of a sentence.
struct Filling {
  std::string_view name;
  std::string text;
};

/// What a coach wrote, and the language that it is written in (a tag of BCP 47, "de").
struct Written {
  std::string text;
  std::string language = "en";

  Written() = default;
  Written(const char* written) : text(written) {}
  Written(std::string written) : text(std::move(written)) {}
  Written(std::string written, std::string in)
      : text(std::move(written)), language(std::move(in)) {}
  bool empty() const { return text.empty(); }
  friend bool operator==(const Written&, const Written&) = default;
};

/// Whether `tag` looks like one of BCP 47: "de", "pt-BR".
bool is_language_tag(std::string_view tag);

class Words {
 public:
  /// One sentence; where number matters, the form for one apart. Text in {braces} is a place.
  struct Sentence {
    std::string other;
    std::optional<std::string> one;
    /// The names of all places in its forms.
    std::set<std::string> places() const;
  };

  /// "en": the language as HTML's `lang` wants it.
  const std::string& language() const { return language_; }

  /// The sentence `id` with its places filled; what a filling says is never read as a place. An id
  /// that there is not comes back in <angles>: tests hold that no page asks for one.
  std::string say(std::string_view id, std::initializer_list<Filling> fillings = {}) const {
    return say_with(std::nullopt, id, {fillings.begin(), fillings.size()});
  }
  /// The same in the form that suits `count`, which also fills {count}.
  std::string say(std::size_t count, std::string_view id,
                  std::initializer_list<Filling> fillings = {}) const {
    return say_with(count, id, {fillings.begin(), fillings.size()});
  }
  /// Either, for fillings that are known as the program runs only.
  std::string say_with(std::optional<std::size_t> count, std::string_view id,
                       std::span<const Filling> fillings) const;
  /// The sentence `id` as it stands, or `fallback`: for words whose English stands elsewhere.
  std::string say_or(std::string_view id, std::string_view fallback) const;
  bool has(std::string_view id) const { return sentences_.contains(id); }

  /// What a profile says, in this language: its translation, or as it is written where there is
  /// none. Looked up by the sentence itself, so that one which a coach rewrites is never followed
  /// by the translation of another.
  Written tell(const Written& written) const;
  /// Translations by what is written.
  const std::map<std::string, std::string, std::less<>>& advice() const { return advice_; }

  /// Of all that can be said, hex: changes with any sentence or translation.
  std::string hash() const;

  /// By id.
  const std::map<std::string, Sentence, std::less<>>& sentences() const { return sentences_; }

 private:
  friend Result<Words> read_words(const std::string&, const std::string&, const Words*);
  friend Result<Words> with_advice(Words, const std::string&, const std::string&);
  std::string language_;
  std::map<std::string, Sentence, std::less<>> sentences_;
  std::map<std::string, std::string, std::less<>> advice_;
};

/// "a, b and c", or with another sentence of `numbers` for the last of them.
std::string listed(const Words& words, const std::vector<std::string>& items,
                   std::string_view joint = "numbers.and");

/// Sections of words whose English stands where they come from (rules, filming.yaml, clubs.yaml):
/// English needs none of them, and their ids are those of other rooms.
inline constexpr std::string_view sections_from_elsewhere[] = {"categories", "clubs", "filming",
                                                               "measures"};
/// Whether `id` is in one of them.
bool is_from_elsewhere(std::string_view id);

/// One file: `version`, `language`, then sentences in sections, whose keys joined by dots are the
/// ids. With `over`, the file changes some of its sentences and keeps the rest; an id that it has
/// not, and a place that its sentence has not, is an error with file and line.
Result<Words> read_words(const std::string& text, const std::string& file,
                         const Words* over = nullptr);

/// `words` with the translations of one file: `version`, `language`, then `sentences`, a list of
/// pairs, each the sentence as a profile has it under the tag of its language and what it is in
/// the file's own. A sentence that stands there twice, an empty one and any other key is an error
/// with file and line.
Result<Words> with_advice(Words words, const std::string& text, const std::string& file);

/// The languages that are built in, English first.
std::span<const std::string_view> shipped_languages();
/// The catalogue built in for one of these languages, and the texts of its files; advice is empty
/// for the language that the shipped profiles are written in.
const Words& shipped_words(std::string_view language);
std::string_view shipped_words_text(std::string_view language);
std::string_view shipped_advice_text(std::string_view language);
inline const Words& english() { return shipped_words("en"); }

/// The shipped catalogue of `language` with the sentences of `folder`/words/LANGUAGE.yaml and
/// `folder`/words/advice/LANGUAGE.yaml, where there are such files, in place of its own.
/// Fault::bad_profile when one of them is wrong.
Result<Words> load_words(const std::filesystem::path& folder, std::string_view language);

}  // namespace rangecheck
