// SPDX-License-Identifier: MIT
#include "grade/profile_text.hpp"

#include <algorithm>

#include "base/read_file.hpp"
#include "folder.hpp"
#include "grade/fitted_hash.hpp"
#include "grade/lint.hpp"

namespace rangecheck::grade {
namespace {

namespace fs = std::filesystem;

const fs::path shipped = fs::path(RANGECHECK_SOURCE_DIR) / "profiles";

/// What a golfer is held against, but for where it is written.
std::string hash_without_origins(Profile profile) {
  for (auto& check : profile.checks) check.origin.clear();
  return hash_of(Fitted{.profile = std::move(profile), .changes = {}, .switched_off = {}});
}

/// A folder with the shipped words for profiles, and no profile.
void copy_vocabulary(const Folder& folder) {
  for (const auto* name : {"clubs.yaml", "measures.yaml"})
    folder.write(name, *read_file(shipped / name, name));
}

TEST_CASE("profile text: every shipped profile, shown and read again, is the same") {
  const auto set = load_profiles(shipped);
  REQUIRE(set);
  for (const auto& profile : set->profiles) {
    CAPTURE(profile.id);
    const auto text = shown_profile(shipped, profile.id);
    REQUIRE(text);
    const Folder folder;
    copy_vocabulary(folder);
    folder.write("shown.yaml", *text);
    const auto again = folder.loaded();
    REQUIRE(again.profiles.size() == 1);
    CHECK(hash_without_origins(again.profiles.front()) == hash_without_origins(profile));
    CHECK(*shown_profile(folder.path(), profile.id) != "");
  }
}

TEST_CASE("profile text: values carry where they come from, in order from the ground up") {
  const Folder folder;
  folder.write("base.yaml",
               "version: 1\nid: base\nchecks:\n"
               "  hip-hinge: { target: 46..64 deg, fade: 10 deg, drives: [side-bend] }\n"
               "  stance-width: { target: around 15 in ± 1 in, fade: 2 in, low: 'Too: close' }\n"
               "observed:\n  grip: { accept: [firm, 'as, it is'], outside: No. }\n"
               "positions:\n  p4:\n    forward-bend: { target: 30..40 deg, fade: 5 deg,\n"
               "      drives: [hip-turn, address/forward-bend, tempo-ratio, hip-hinge] }\n"
               "tempo:\n  tempo-ratio: { target: 2..4, fade: 1 }\n");
  folder.write("iron.yaml", head +
                                "extends: base\nconfidence: 0.9\nchecks:\n"
                                "  stance-width:\n    weight: 2\n  hip-hinge: { off: true }\n");
  const auto text = shown_profile(folder.path(), "iron");
  REQUIRE(text);
  CHECK(*text ==
        "version: 1  # iron.yaml:1\n"
        "id: iron  # iron.yaml:2\n"
        "title: Iron  # iron.yaml:3\n"
        "club: middle-iron  # iron.yaml:4\n"
        "swing: full  # iron.yaml:5\n"
        "style: neutral  # iron.yaml:6\n"
        "confidence: 0.9  # iron.yaml:8\n"
        "least-seen: 0.5  # the program's own\n"
        "checks:\n"
        "  stance-width:\n"
        "    target: around 15 in ± 1 in  # base.yaml:5\n"
        "    fade: 2 in  # base.yaml:5\n"
        "    weight: 2  # iron.yaml:11\n"
        "    low: \"Too: close\"  # base.yaml:5\n"
        "  hip-hinge:\n"
        "    off: true  # iron.yaml:12\n"
        "positions:\n"
        "  top:\n"
        "    forward-bend:\n"
        "      target: 30..40 deg  # base.yaml:10\n"
        "      fade: 5 deg  # base.yaml:10\n"
        "      drives: [top/hip-turn, address/forward-bend, tempo-ratio, address/hip-hinge]  # "
        "base.yaml:11\n"
        "tempo:\n"
        "  tempo-ratio:\n"
        "    target: 2..4  # base.yaml:13\n"
        "    fade: 1  # base.yaml:13\n"
        "observed:\n"
        "  grip:\n"
        "    accept: [firm, \"as, it is\"]  # base.yaml:7\n"
        "    outside: No.  # base.yaml:7\n");
  // Of the same name in another file it reads as the same.
  const Folder alone;
  alone.write("iron.yaml", *text);
  CHECK(hash_without_origins(alone.loaded().profiles[0]) ==
        hash_without_origins(folder.loaded().profiles[0]));
}

TEST_CASE("profile text: what is in another language than its file is marked") {
  const Folder folder;
  folder.write("base.yaml",
               "version: 1\nid: base\nlanguage: de\nchecks:\n"
               "  stance-width: { target: 14..15 in, fade: 2 in, low: Zu eng., high: Zu weit. }\n");
  folder.write("iron.yaml", head + "extends: base\nchecks:\n  stance-width: { low: Too near. }\n");
  const auto text = shown_profile(folder.path(), "iron");
  REQUIRE(text);
  CHECK(text->find("low: Too near.  # iron.yaml:9\n") != std::string::npos);
  CHECK(text->find("high: Zu weit.  # base.yaml:5, in de\n") != std::string::npos);
  CHECK(text->find("language:") == std::string::npos);
  CHECK(shown_profile(folder.path(), "base")->find("language: de  # base.yaml:3\n") !=
        std::string::npos);
}

TEST_CASE("profile text: an id that is not there, and a club and swing") {
  CHECK(to_string(shown_profile(shipped, "middle-iron-full-netral").error()) ==
        "there is no profile \"middle-iron-full-netral\" (did you mean middle-iron-full-neutral?)");
  CHECK(*profile_for(shipped, "7-iron", "full", "") == "middle-iron-full-neutral");
  CHECK(*profile_for(shipped, "7i", "full", "preset") == "middle-iron-full-preset");
  CHECK_FALSE(profile_for(shipped, "7-irn", "full", ""));
}

/// The starter's lines with all its checks uncommented.
std::string uncommented(const std::string& text) {
  std::string out;
  bool in_checks = false;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    std::string line = text.substr(at, end - at + 1);
    at = end + 1;
    if (line == "# checks:\n") in_checks = true;
    if (line == "#\n") in_checks = false;
    out += in_checks ? line.substr(2) : line;
  }
  return out;
}

TEST_CASE("profile text: a starter reads as the profile it extends, and without a finding") {
  for (const bool all : {false, true}) {
    CAPTURE(all);
    const Folder folder;
    std::filesystem::copy(shipped, folder.path(),
                          fs::copy_options::recursive | fs::copy_options::overwrite_existing);
    const auto text = starter(shipped, {.id = "my-iron", .club = "7i", .swing = "full"});
    REQUIRE(text);
    folder.write("my-iron.yaml", all ? uncommented(*text) : *text);
    CHECK(lint(folder.path(), {folder.path() / "my-iron.yaml"}).findings.empty());
    const auto set = folder.loaded();
    const auto mine = choose_profile(set, "7-iron", "full", "my-iron");
    REQUIRE(mine);
    Profile same = **choose_profile(set, "7-iron", "full", "neutral");
    same.id = (*mine)->id;
    same.style = (*mine)->style;
    same.title = (*mine)->title;
    CHECK(hash_without_origins(**mine) == hash_without_origins(same));
    // Uncommented, every band comes from the new file.
    CHECK(((*mine)->checks.front().origin.starts_with("my-iron.yaml:")) == all);
  }
}

TEST_CASE("profile text: a starter names what is measured and not asked for") {
  const auto text = *starter(shipped, {.id = "my-iron", .club = "7i", .swing = "full"});
  const auto rest = text.substr(text.find("Measured too"));
  CHECK(rest.find("#   address: ") != std::string::npos);
  CHECK(rest.find(" head-over-ball") != std::string::npos);
  CHECK(rest.find(" stance-width ") == std::string::npos);
  for (std::size_t at = 0; at < rest.size(); at = rest.find('\n', at) + 1)
    CHECK(rest.find('\n', at) - at <= 100);
}

TEST_CASE("profile text: no starter for what can't be") {
  const auto refusal = [](NewProfile wanted) {
    return to_string(starter(shipped, wanted).error());
  };
  CHECK(refusal({.id = "My Iron", .club = "7i", .swing = "full"}) ==
        "\"My Iron\" is no id (write one in small letters, as my-iron)");
  CHECK(refusal({.id = "preset", .club = "7i", .swing = "full"}) ==
        "\"preset\" is taken by parts/preset.yaml:7 (choose another id)");
  CHECK(refusal({.id = "mine", .club = "7irn", .swing = "full"}) ==
        "\"7irn\" is no club that clubs.yaml knows (did you mean 7-iron?)");
  CHECK(
      refusal({.id = "mine", .club = "7i", .swing = "full", .style = "neutral"}) ==
      "middle-iron, full, neutral is covered by middle-iron-full-neutral (choose another --style)");
  CHECK(refusal({.id = "mine", .club = "driver", .swing = "putt"}) ==
        "there is no profile for driver, putt, neutral (say with --extends what it should begin "
        "with)");
  CHECK(refusal({.id = "mine", .club = "driver", .swing = "putt", .extends = "tmpo"}) ==
        "there is no profile \"tmpo\" to extend (did you mean tempo?)");
}

}  // namespace
}  // namespace rangecheck::grade
