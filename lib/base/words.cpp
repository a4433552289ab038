// SPDX-License-Identifier: MIT
#include "base/words.hpp"

#include <algorithm>
#include <array>

#include "base/digest.hpp"
#include "base/read_file.hpp"
#include "base/text.hpp"
#include "base/yaml.hpp"

namespace rangecheck {
namespace {

constexpr std::size_t largest_file = std::size_t{1} << 20;
constexpr std::array<std::string_view, 2> languages{"en", "de"};

/// Calls `text(plain)` and `place(name)` along `form`.
template <class OnText, class OnPlace>
void walk(std::string_view form, const OnText& on_text, const OnPlace& on_place) {
  while (!form.empty()) {
    const std::size_t open = form.find('{');
    const std::size_t close =
        open == std::string_view::npos ? std::string_view::npos : form.find('}', open);
    if (close == std::string_view::npos) break;
    on_text(form.substr(0, open));
    on_place(form.substr(open + 1, close - open - 1));
    form.remove_prefix(close + 1);
  }
  on_text(form);
}

std::string filled(std::string_view form, std::span<const Filling> fillings,
                   const std::optional<std::size_t>& count) {
  std::string out;
  walk(
      form, [&](std::string_view plain) { out += plain; },
      [&](std::string_view name) {
        const auto found = std::ranges::find(fillings, name, &Filling::name);
        if (found != fillings.end()) {
          out += found->text;
        } else if (count && name == "count") {
          out += std::to_string(*count);
        }
      });
  return out;
}

bool is_plural(const YAML::Node& node) {
  return node.IsMap() && node.size() == 2 && node["one"] && node["other"];
}

/// Reads sections into sentences and holds each against the catalogue that it changes.
class Reader {
 public:
  Reader(std::string file, const Words* over,
         std::map<std::string, Words::Sentence, std::less<>>& to)
      : file_(std::move(file)), over_(over), to_(to) {}

  std::optional<Error> read(const YAML::Node& node, const std::string& id) {
    if (node.IsScalar()) return add(node, id, {node.Scalar(), std::nullopt});
    if (is_plural(node) && node["one"].IsScalar() && node["other"].IsScalar())
      return add(node, id, {node["other"].Scalar(), node["one"].Scalar()});
    if (!node.IsMap()) return fault(node, id, "is no sentence", "write text, or a section of it");
    for (const auto& entry : node) {
      const std::string& key = entry.first.Scalar();
      if (auto error = read(entry.second, id.empty() ? key : id + '.' + key)) return error;
    }
    return std::nullopt;
  }

 private:
  std::optional<Error> add(const YAML::Node& node, const std::string& id,
                           Words::Sentence sentence) {
    for (auto* form : {&sentence.other, sentence.one ? &*sentence.one : nullptr}) {
      if (!form) continue;
      if (printable(*form) != *form) return fault(node, id, "has characters that aren't text", "");
      if (form->empty()) return fault(node, id, "is empty", "write a sentence");
    }
    if (over_ && !is_from_elsewhere(id)) {
      const auto known = over_->sentences().find(id);
      if (known == over_->sentences().end()) {
        std::vector<std::string_view> ids;
        for (const auto& [each, unused] : over_->sentences()) ids.push_back(each);
        const std::string near = nearest(id, ids);
        return fault(node, id, "there is no such sentence",
                     near.empty() ? "" : "did you mean " + near + "?");
      }
      const auto places = known->second.places();
      for (const auto& place : sentence.places())
        if (!places.contains(place))
          return fault(node, id,
                       "there is no place " + rangecheck::quoted('{' + place + '}') + " in it",
                       "its places are those of the shipped sentence");
    }
    to_[id] = std::move(sentence);
    return std::nullopt;
  }

  std::optional<Error> fault(const YAML::Node& node, const std::string& id, std::string what,
                             std::string remedy) const {
    return Error{Fault::bad_profile,
                 std::move(what),
                 {.file = file_, .line = node.Mark().line + 1, .frame = {}, .key = shortened(id)},
                 std::move(remedy)};
  }

  std::string file_;
  const Words* over_;
  std::map<std::string, Words::Sentence, std::less<>>& to_;
};

}  // namespace

std::set<std::string> Words::Sentence::places() const {
  std::set<std::string> names;
  const auto collect = [&names](std::string_view form) {
    walk(
        form, [](std::string_view) {}, [&](std::string_view name) { names.emplace(name); });
  };
  collect(other);
  if (one) collect(*one);
  return names;
}

std::string Words::say_with(std::optional<std::size_t> count, std::string_view id,
                            std::span<const Filling> fillings) const {
  const auto found = sentences_.find(id);
  if (found == sentences_.end()) return '<' + std::string(id) + '>';
  const auto& [other, one] = found->second;
  return filled(count == 1 && one ? *one : other, fillings, count);
}

std::string Words::say_or(std::string_view id, std::string_view fallback) const {
  const auto found = sentences_.find(id);
  return found == sentences_.end() ? std::string(fallback) : found->second.other;
}

std::string listed(const Words& words, const std::vector<std::string>& items,
                   std::string_view joint) {
  if (items.empty()) return "";
  std::string text = items.front();
  for (std::size_t i = 1; i + 1 < items.size(); ++i)
    text += words.say("numbers.list-joint") + items[i];
  return items.size() == 1 ? text : words.say(joint, {{"first", text}, {"last", items.back()}});
}

Written Words::tell(const Written& written) const {
  const auto found = advice_.find(written.text);
  return found == advice_.end() ? written : Written(found->second, language_);
}

std::string Words::hash() const {
  Digest digest;
  digest.add(language_);
  for (const auto& [id, sentence] : sentences_)
    for (const std::string_view part :
         {std::string_view(id), std::string_view(sentence.other),
          sentence.one ? std::string_view(*sentence.one) : std::string_view()})
      digest.add(part);
  for (const auto& [written, told] : advice_) {
    digest.add(written);
    digest.add(told);
  }
  return digest.hex();
}

bool is_from_elsewhere(std::string_view id) {
  const auto section = id.substr(0, id.find('.'));
  return std::ranges::find(sections_from_elsewhere, section) != std::end(sections_from_elsewhere);
}

Result<Words> read_words(const std::string& text, const std::string& file, const Words* over) {
  auto document = yaml::parse(text, file);
  if (!document) return document.error();
  yaml::Map map(*document, file);
  if (map.number("version") != 1)
    map.fault("version", "this version of rangecheck reads version 1 only", "write `version: 1`");
  Words words = over ? *over : Words();
  const std::string language = map.text("language");
  if (over && language != over->language())
    map.fault("language", "should be " + over->language(), "name the file as its language");
  words.language_ = language;
  std::optional<Error> first;
  Reader reader(file, over, words.sentences_);
  if (!document->IsMap()) return *map.finish();  // whose pairs would be no pairs
  for (const auto& entry : *document) {
    const std::string& section = entry.first.Scalar();
    if (section == "version" || section == "language") continue;
    map.node(section);
    if (!first) first = reader.read(entry.second, section);
  }
  if (auto error = map.finish()) return *error;
  if (first) return *first;
  return words;
}

std::span<const std::string_view> shipped_languages() { return languages; }

const Words& shipped_words(std::string_view language) {
  // Read by every test of them: they can't fail in a program that was built.
  static const auto all = [] {
    std::map<std::string, Words, std::less<>> read;
    for (const auto each : languages) {
      const std::string name = std::string(each) + ".yaml";
      Words words = *read_words(std::string(shipped_words_text(each)), "words/" + name);
      const std::string advice(shipped_advice_text(each));
      if (!advice.empty()) words = *with_advice(std::move(words), advice, "words/advice/" + name);
      read.emplace(each, std::move(words));
    }
    return read;
  }();
  return all.find(language)->second;
}

Result<Words> load_words(const std::filesystem::path& folder, std::string_view language) {
  Words words = shipped_words(language);
  /// Lays the file `name` over `words`, where there is one.
  const auto lay = [&](const std::string& name, const auto& read) -> std::optional<Error> {
    std::error_code failed;
    if (!std::filesystem::exists(folder / name, failed)) return std::nullopt;
    auto text = read_file(folder / name, name, largest_file);
    if (!text) {
      text.error().fault = Fault::bad_profile;
      return text.error();
    }
    auto laid = read(*text, name);
    if (!laid) {
      laid.error().fault = Fault::bad_profile;
      return laid.error();
    }
    words = *std::move(laid);
    return std::nullopt;
  };
  const std::string file = std::string(language) + ".yaml";
  if (auto error = lay("words/" + file, [&](const std::string& text, const std::string& name) {
        return read_words(text, name, &words);
      }))
    return *error;
  if (auto error =
          lay("words/advice/" + file, [&](const std::string& text, const std::string& name) {
            return with_advice(words, text, name);
          }))
    return *error;
  return words;
}

}  // namespace rangecheck
