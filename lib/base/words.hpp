// SPDX-License-Identifier: MIT
// What pages say to people: sentences by id, in one language, with named places for what differs.
// The shipped catalogues are profiles/words/LANGUAGE.yaml, built into the program.
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

  /// By id.
  const std::map<std::string, Sentence, std::less<>>& sentences() const { return sentences_; }

 private:
  friend Result<Words> read_words(const std::string&, const std::string&, const Words*);
  std::string language_;
  std::map<std::string, Sentence, std::less<>> sentences_;
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

/// The languages that are built in, English first.
std::span<const std::string_view> shipped_languages();
/// The catalogue built in for one of these languages, and its text.
const Words& shipped_words(std::string_view language);
std::string_view shipped_words_text(std::string_view language);
inline const Words& english() { return shipped_words("en"); }

/// The shipped catalogue of `language` with the sentences of `folder`/words/LANGUAGE.yaml, where
/// there is one, in place of its own. Fault::bad_profile when that file is wrong.
Result<Words> load_words(const std::filesystem::path& folder, std::string_view language);

}  // namespace rangecheck
