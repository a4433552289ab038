// SPDX-License-Identifier: MIT
// What a coach writes: profiles, and the files of a profiles folder with them; point sets; words
// and advice. The first line of the input is a comment that says which file it is ("# limits.yaml",
// "# words/de.yaml"); of profiles, the others are as small as they can be.
#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "base/words.hpp"
#include "fuzz.hpp"
#include "grade/lint.hpp"
#include "grade/profile.hpp"
#include "grade/profile_text.hpp"
#include "intake/layout.hpp"

using namespace rangecheck;

namespace {

struct File {
  std::string_view name, text;
};
constexpr std::array files{
    File{"clubs.yaml", "version: 1\nfamilies: { irons: [7-iron] }\ndefault-style: neutral\n"},
    File{"base.yaml",
         "version: 1\nid: base\ntitle: Base\nclub: irons\nswing: full\nstyle: neutral\n"
         "checks:\n  stance-width: { target: 40 to 60 cm, fade: 5 cm }\n"},
    File{"limits.yaml", ""},
    File{"measures.yaml", ""},
    File{"filming.yaml", ""},
    File{"students/s-1.yaml", ""},
    File{"second.yaml", ""},
};

std::string_view named_in(std::string_view text) {
  auto line = text.substr(0, text.find('\n'));
  if (line.starts_with('#')) line.remove_prefix(1);
  return trim(line);
}

/// A folder with `text` as its file `name`, which is a profile's where it is no other's.
void read_as_profiles(std::string_view name, std::string_view text) {
  static const fuzz::Folder folder;
  if (std::ranges::find(files, name, &File::name) == files.end()) name = "second.yaml";
  for (const auto& file : files) {
    if (file.name == name)
      folder.write(name, text);
    else if (!file.text.empty())
      folder.write(file.name, file.text);
    else
      std::filesystem::remove(folder.path() / file.name);
  }
  const auto read = grade::load_profiles(folder.path());
  const auto again = grade::load_profiles(folder.path());
  fuzz::hold(bool(read) == bool(again), "reading is deterministic");
  const auto found = grade::lint(folder.path(), {});
  for (const auto& finding : found.findings) fuzz::hold_error(finding.error, "");
  const bool refused = std::ranges::any_of(found.findings, &grade::Finding::refuses);
  fuzz::hold(refused != bool(read), "lint has an error where a run has");
  if (!read) {
    // A fault may show in another file than the one that made it.
    fuzz::hold_error(read.error(), "");
    fuzz::hold(!read.error().where.file.empty(), "an error names a file");
    return;
  }
  fuzz::hold(read->hash == again->hash, "so is what was read");
  for (const auto& profile : read->profiles) {
    fuzz::hold(!profile.checks.empty(), "a profile checks something");
    fuzz::hold(bool(grade::shown_profile(folder.path(), profile.id)), "a profile can be shown");
    for (const auto& check : profile.checks)
      fuzz::hold_within({check.fade_si, check.weight}, 1e308);
  }
}

void read_as_layout(const std::string& text) {
  const auto layout = intake::read_layout(text, "layout.yaml");
  if (!layout) return fuzz::hold_error(layout.error(), "layout.yaml");
  fuzz::hold(!layout->name.empty(), "a layout has a name");
  fuzz::hold(layout->size() >= 6 && layout->size() <= 2000, "a layout has a body's points");
  fuzz::hold_within({layout->least_score}, 1);
}

void read_as_words(const std::string& text) {
  const Words* under[] = {nullptr, &english()};
  for (const Words* words : under) {
    const auto read = read_words(text, "words.yaml", words);
    if (!read) fuzz::hold_error(read.error(), "words.yaml");
    if (!read) continue;
    for (const auto& [id, sentence] : read->sentences()) {
      fuzz::hold(printable(sentence.other) == sentence.other, "a sentence is text");
      read->say(2, id, {{"name", "{name}"}});
    }
  }
}

void read_as_advice(const std::string& text) {
  const auto advised = with_advice(shipped_words("de"), text, "advice.yaml");
  if (!advised) fuzz::hold_error(advised.error(), "advice.yaml");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(fuzz::text_of(data, size));
  const std::string_view name = named_in(text);
  if (name.starts_with("layouts/"))
    read_as_layout(text);
  else if (name.starts_with("words/advice/"))
    read_as_advice(text);
  else if (name.starts_with("words/"))
    read_as_words(text);
  else
    read_as_profiles(name, text);
  return 0;
}
