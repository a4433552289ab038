// SPDX-License-Identifier: MIT
// A night over an inbox that strangers have filled: whatever they send is set aside with its
// reason, every other submission is graded, and nothing is written outside the output folder.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <set>

#include "base/text.hpp"
#include "generator/writer.hpp"
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

using Reasons = std::map<std::string, std::string>;

/// The night set aside just these submissions, each for its reason.
void check_reasons(const Night& night, const Reasons& expected) {
  Reasons reasons;
  for (const auto& each : night.set_aside) reasons[each.submission] = to_string(each.error);
  for (const auto& [id, reason] : expected) CHECK(reasons[id] == reason);
  CHECK(reasons.size() == expected.size());
}

/// A good submission whose file has `to` in place of `from`.
void add_with(const Fixture& fixture, const std::string& id, const std::string& file,
              const std::string& from, const std::string& to) {
  fixture.add_good(id);
  auto text = fixture.files("inbox").at(id + '/' + file);
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  fixture.write("inbox/" + id + '/' + file, text.replace(at, from.size(), to));
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
  const Reasons expected{
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
  check_reasons(*night, expected);
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

TEST_CASE("hostile inbox: loose things that are no films") {
  const Fixture fixture;
  const fs::path inbox = fixture.folder() / "inbox";
  fixture.add_good("good");
  fixture.write("roster.csv", "id\nr\n");
  REQUIRE(::mkfifo((inbox / "r_pipe_full_face-on.json").c_str(), 0600) == 0);
  fs::create_symlink("/etc/passwd", inbox / "r_link_full_face-on.json");
  fs::create_symlink("r_loop_full_face-on.json", inbox / "r_loop_full_face-on.json");
  fs::create_directory(inbox / "r_folder_full_face-on.json");
  Job job = fixture.job();
  job.roster = fixture.folder() / "roster.csv";
  const auto before = all_but_out(fixture);
  const auto night = run(job);
  REQUIRE(night);
  CHECK(night->graded.size() == 1);
  const Reasons expected{
      {"r_pipe_full", "r_pipe_full_face-on.json: isn't a file"},
      {"r_link_full",
       "r_link_full_face-on.json: is a link that leads out of the submission's folder"},
      {"r_loop_full",
       "r_loop_full_face-on.json: is a link that leads nowhere (put the file itself there)"},
      {"r_folder_full_face-on.json",
       "r_folder_full_face-on.json: holds neither submission.yaml nor files named "
       "STUDENT_CLUB_SWING_VIEW.json"},
  };
  check_reasons(*night, expected);
  CHECK(all_but_out(fixture) == before);
}

TEST_CASE("hostile inbox: ids and paths that climb out of their folder") {
  const Fixture fixture;
  fixture.add_good("good");
  const auto add = [&](const std::string& id, const std::string& from, const std::string& to) {
    add_with(fixture, id, "submission.yaml", from, to);
  };
  add("id-up", "s-0001", "../../s-0001");
  add("id-root", "s-0001", "/tmp/s-0001");
  add("film-up", "landmarks: face-on.json", "landmarks: ../good/face-on.json");
  add("film-root", "landmarks: face-on.json", "landmarks: /etc/passwd");
  add("film-linked", "landmarks: face-on.json", "landmarks: sub/face-on.json");
  fs::create_directory_symlink("../good", fixture.folder() / "inbox/film-linked/sub");
  add("club-up", "face-on.json }", "face-on.json, club-points: ../good/club.json }");
  const auto before = all_but_out(fixture);
  const auto night = run(fixture.job(2));
  REQUIRE(night);
  CHECK(night->graded.size() == 1);
  const auto no_id = [](const std::string& id, const std::string& written) {
    return id + "/submission.yaml:1: student: \"" + written +
           "\" can't be a student's id: it may have only letters, digits, spaces and . _ - ( ) + , "
           "& '";
  };
  const auto no_path = [](const std::string& id, const std::string& key, const std::string& why) {
    return id + "/submission.yaml:5: views[0]." + key + ": \"" + why +
           " (put the file beside submission.yaml and write its name)";
  };
  const std::string out = "\" leads out of the submission's folder";
  const Reasons expected{
      {"id-up", no_id("id-up", "../../s-0001")},
      {"id-root", no_id("id-root", "/tmp/s-0001")},
      {"film-up", no_path("film-up", "landmarks", "../good/face-on.json" + out)},
      {"film-root", no_path("film-root", "landmarks",
                            "/etc/passwd\" has to be a path inside the submission's folder")},
      {"film-linked",
       "film-linked/sub/face-on.json: is a link that leads out of the submission's folder"},
      {"club-up", no_path("club-up", "club-points", "../good/club.json" + out)},
  };
  check_reasons(*night, expected);
  CHECK(all_but_out(fixture) == before);
}

TEST_CASE("hostile inbox: nobody sends another's film as his own") {
  const Fixture fixture;
  fixture.add_good("good");
  fixture.add_good("thief");
  const fs::path theirs = fixture.folder() / "inbox/thief/face-on.json";
  fs::remove(theirs);
  fs::create_symlink("../good/face-on.json", theirs);
  const auto night = run(fixture.job());
  REQUIRE(night);
  check_reasons(
      *night,
      {{"thief", "thief/face-on.json: is a link that leads out of the submission's folder"}});
}

TEST_CASE("hostile inbox: bombs") {
  const Fixture fixture;
  fixture.add_good("good");
  const auto add = [&](const std::string& id, const std::string& file, const std::string& text) {
    fixture.add_good(id);
    fixture.write("inbox/" + id + '/' + file, text);
  };
  // 257 MiB in less than half of one: gzip's files may follow one another (RFC 1952, section 2.2).
  const std::string mebibyte = samples::gzipped(std::string(1u << 20, ' '));
  std::string many;
  for (int i = 0; i < 257; ++i) many += mebibyte;
  REQUIRE(many.size() < (1u << 19));
  add("gzip", "face-on.json", many);
  add("gzip-twice", "face-on.json", samples::gzipped(many));
  add("lists", "face-on.json", std::string(1'000'000, '['));
  std::string aliases = "student: s\na: &a [x, x]\n";
  for (char name = 'b'; name <= 'z'; ++name) {
    const std::string before = '*' + std::string(1, static_cast<char>(name - 1));
    aliases += std::string(1, name) + ": &" + name + " [" + before + ", " + before + "]\n";
  }
  add("aliases", "submission.yaml", aliases);
  const auto before = all_but_out(fixture);
  const auto night = run(fixture.job(2));
  REQUIRE(night);
  CHECK(night->graded.size() == 1);
  const Reasons expected{
      {"gzip", "gzip/face-on.json: is larger than 256 MiB (cut the film to the swing itself)"},
      {"gzip-twice",
       "gzip-twice/face-on.json: is compressed twice (compress it once, or not at all)"},
      {"lists", "lists/face-on.json: is nested too deeply for a landmark file"},
      {"aliases",
       "aliases/submission.yaml:3: YAML aliases (*name) are not accepted (write the value out)"},
  };
  check_reasons(*night, expected);
  CHECK(all_but_out(fixture) == before);
}

TEST_CASE("hostile inbox: numbers of frames and times that are no film's") {
  const Fixture fixture;
  fixture.add_good("good");
  const auto add = [&](const std::string& id, const std::string& from, const std::string& to) {
    add_with(fixture, id, "face-on.json", from, to);
  };
  add("rate-high", "\"frame-rate\":30.0", "\"frame-rate\":1e300");
  add("rate-low", "\"frame-rate\":30.0", "\"frame-rate\":1e-300");
  add("far-time", "\"frame\":0,", "\"frame\":0,\"time\":-1.7e308,");
  const auto night = run(fixture.job());
  REQUIRE(night);
  CHECK(night->graded.size() == 1);
  const std::string remedy = " (correct it in the file, or leave it out)";
  check_reasons(*night,
                {{"rate-high",
                  "rate-high/face-on.json: says that it has 1e+300 frames a second, which "
                  "no film has" +
                      remedy},
                 {"rate-low",
                  "rate-low/face-on.json: says that it has 1e-300 frames a second, which no "
                  "film has" +
                      remedy},
                 {"far-time",
                  "far-time/face-on.json: frame 0: has a time of -1.7e+308 s, which no film "
                  "has" +
                      remedy}});
}

}  // namespace rangecheck::inbox
