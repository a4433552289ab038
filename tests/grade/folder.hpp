// SPDX-License-Identifier: MIT
#pragma once

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "grade/profile.hpp"
#include "scratch.hpp"

/// A folder of profiles that lasts as long as the test.
class Folder {
 public:
  Folder() {
    write("clubs.yaml",
          "version: 1\n"
          "families:\n"
          "  middle-iron: [7-iron, 7i]\n"
          "  wedge: [pitching-wedge, pw]\n");
  }

  void write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories((scratch_.path / name).parent_path());
    std::ofstream(scratch_.path / name) << text;
  }
  const std::filesystem::path& path() const { return scratch_.path; }
  void make_pipe(const std::string& name) const {
    REQUIRE(::mkfifo((scratch_.path / name).c_str(), 0600) == 0);
  }
  rangecheck::Result<rangecheck::grade::ProfileSet> load() const {
    return rangecheck::grade::load_profiles(scratch_.path);
  }
  rangecheck::grade::ProfileSet loaded() const {
    auto set = load();
    REQUIRE_MESSAGE(bool(set), (set ? "" : to_string(set.error())));
    return *set;
  }
  /// The one line that a coach would read.
  std::string complaint() const {
    const auto set = load();
    if (set) return "no fault found";
    CHECK(set.error().fault == rangecheck::Fault::bad_profile);
    return to_string(set.error());
  }

 private:
  rangecheck::test::Scratch scratch_;
};

/// The head of a profile that can be chosen, six lines long.
inline const std::string head =
    "version: 1\nid: iron\ntitle: Iron\nclub: middle-iron\nswing: full\nstyle: neutral\n";

inline const rangecheck::grade::Check* find_check(const rangecheck::grade::Profile& profile,
                                                  std::string_view id) {
  for (const auto& check : profile.checks)
    if (check.id == id) return &check;
  return nullptr;
}
