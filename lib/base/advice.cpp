// SPDX-License-Identifier: MIT
// Translations of what profiles say: words/advice/LANGUAGE.yaml.
#include <algorithm>

#include "base/text.hpp"
#include "base/words.hpp"
#include "base/yaml.hpp"

namespace rangecheck {
namespace {

/// The sentence of a pair as it is written and as it is told.
struct Pair {
  std::string written, told;
};

/// What `key` of `map` holds, which has to be text that a page can show.
std::string sentence(yaml::Map& map, const std::string& key) {
  std::string text = map.text(key);
  if (printable(text) != text) map.fault(key, "has characters that aren't text");
  if (text.empty()) map.fault(key, "is empty", "write a sentence");
  return text;
}

Result<Pair> read_pair(const YAML::Node& node, const std::string& file, const std::string& path,
                       const std::string& language) {
  yaml::Map map(node, file, path);
  if (!node.IsMap()) return *map.finish();
  Pair pair{.written = {}, .told = sentence(map, language)};
  for (const auto& entry : node) {
    const std::string& key = entry.first.Scalar();
    if (key == language) continue;
    if (!is_language_tag(key) || !pair.written.empty()) {
      map.fault(key, "there is no such key",
                "write a sentence under the tag of its language, and under " + language +
                    " what it is there");
      break;
    }
    pair.written = sentence(map, key);
  }
  if (auto error = map.finish()) return *error;
  if (!pair.written.empty()) return pair;
  map.fault("", "says no sentence that is translated", "add it under the tag of its language");
  return *map.finish();
}

}  // namespace

bool is_language_tag(std::string_view tag) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto parts = split(tag, '-');
  const auto of_size = [](std::string_view part, std::size_t least) {
    return part.size() >= least && part.size() <= 8;
  };
  const auto sign = [&](char c) { return letter(c) || (c >= '0' && c <= '9'); };
  return parts.front().size() <= 3 && of_size(parts.front(), 2) &&
         std::ranges::all_of(parts.front(), letter) &&
         std::all_of(parts.begin() + 1, parts.end(), [&](std::string_view part) {
           return of_size(part, 1) && std::ranges::all_of(part, sign);
         });
}

Result<Words> with_advice(Words words, const std::string& text, const std::string& file) {
  auto document = yaml::parse(text, file);
  if (!document) return document.error();
  yaml::Map map(*document, file);
  if (map.number("version") != 1)
    map.fault("version", "this version of rangecheck reads version 1 only", "write `version: 1`");
  if (map.text("language") != words.language())
    map.fault("language", "should be " + words.language(), "name the file as its language");
  const YAML::Node sentences = map.node("sentences");
  if (!sentences || !sentences.IsSequence())
    map.fault("sentences", "should be a list of pairs", "begin each pair with a dash");
  if (auto error = map.finish()) return *error;
  std::map<std::string, std::string> paths;  // of what this file has so far
  std::size_t count = 0;
  for (const auto& node : sentences) {
    const std::string path = "sentences[" + std::to_string(count++) + "]";
    auto pair = read_pair(node, file, path, words.language());
    if (!pair) return pair.error();
    const auto [before, is_new] = paths.emplace(pair->written, path);
    if (!is_new) {
      yaml::Map twice(node, file, path);
      twice.fault("", "is the sentence of " + before->second + " again", "keep one of the two");
      return *twice.finish();
    }
    words.advice_.insert_or_assign(std::move(pair->written), std::move(pair->told));
  }
  return words;
}

}  // namespace rangecheck
