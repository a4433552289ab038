// SPDX-License-Identifier: MIT
// A night over an inbox that strangers have filled: whatever they send is set aside with its
// reason, every other submission is graded, and nothing is written outside the output folder.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <set>

#include "base/text.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

const std::string letters =
    "it may have only letters, digits, spaces and . _ - ( ) + , & ' (rename it)";

/// Every file and link below a folder but in OUT, with its size.
std::set<std::string> all_but_out(const Fixture& fixture) {
  std::set<std::string> found;
  for (auto entry = fs::recursive_directory_iterator(fixture.folder());
       entry != fs::recursive_directory_iterator(); ++entry) {
    if (entry->path() == fixture.folder() / "out") {
      entry.disable_recursion_pending();
      continue;
    }
    std::error_code none;
    const auto size = entry->is_regular_file(none) ? fs::file_size(entry->path()) : 0;
    found.insert(entry->path().string() + ' ' + std::to_string(size));
  }
  return found;
}

/// The reasons of a night, by submission.
std::map<std::string, std::string> reasons(const Night& night) {
  std::map<std::string, std::string> out;
  for (const auto& each : night.set_aside) out[each.submission] = to_string(each.error);
  return out;
}

}  // namespace

TEST_CASE("hostile inbox: names of folders and files") {
  const Fixture fixture;
  const fs::path inbox = fixture.folder() / "inbox";
  // Names that are also those of places in OUT do no harm.
  for (const auto* id : {"good", "students", "set-aside", "history.sqlite"}) fixture.add_good(id);
  const std::string long_name(255, 'x');
  for (const std::string id : {"a\nb\x1b[31m", "a\\..\\b", "\xe2\x80\xaegnp.exe", "\xff\xfe", "-rf",
                               "ends.", long_name.c_str()})
    fixture.write("inbox/" + id + "/submission.yaml", "student: s\n");
  fixture.write("inbox/.hidden/submission.yaml", "student: s\n");
  fixture.write("elsewhere/submission.yaml", "student: s\n");
  fs::create_directory_symlink(fixture.folder() / "elsewhere", inbox / "linked");
  fs::create_symlink("loop", inbox / "loop");
  const auto before = all_but_out(fixture);

  const auto night = run(fixture.job(2));
  REQUIRE(night);
  std::set<std::string> graded;
  for (const auto& each : night->graded) graded.insert(each.submission);
  CHECK(graded == std::set<std::string>{"good", "history.sqlite", "set-aside", "students"});
  const auto why = [](const std::string& shown, const std::string& reason) {
    return shown + ": \"" + shown + "\" can't be the name of a submission: " + reason;
  };
  const std::map<std::string, std::string> expected{
      {"a\nb\x1b[31m", why("a\\nb\\x1b[31m", letters)},
      {"a\\..\\b", why("a\\..\\b", letters)},
      {"\xe2\x80\xaegnp.exe", why("\\xe2\\x80\\xaegnp.exe", letters)},
      {"\xff\xfe", why("\\xff\\xfe", letters)},
      {"-rf", why("-rf", "it has to start with a letter or a digit (rename it)")},
      {"ends.", why("ends.", "it may not end with a space or a dot (rename it)")},
      {long_name, long_name + ": \"" + std::string(80, 'x') +
                      "…\" can't be the name of a submission: it is longer than 100 bytes (rename "
                      "it)"},
      {"linked", "linked: is a link (move the folder itself into the inbox)"},
  };
  CHECK(reasons(*night) == expected);
  // Each is told of in a file of its own, whose name no terminal and no program trips over.
  std::size_t told = 0;
  for (const auto& [path, text] : fixture.files("out")) {
    CAPTURE(path);
    CHECK(printable(path) == path);
    CHECK(path.size() < 120);
    told += path.starts_with("set-aside/");
  }
  CHECK(told == expected.size());
  CHECK(all_but_out(fixture) == before);
}

}  // namespace rangecheck::inbox
