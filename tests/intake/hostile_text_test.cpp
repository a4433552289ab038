// SPDX-License-Identifier: MIT
// Manifests and rosters from strangers, through the real entries: each ends in an error with file,
// line and what to do. The limits stand in base/yaml.cpp, submission.cpp and roster.cpp.
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include <cstring>

#include "fixture.hpp"
#include "generator/writer.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;
namespace fs = std::filesystem;

namespace {

const std::string head = "student: s-1\nclub: 7-iron\n";
const std::string golfer = "golfer: { handedness: right }\n";
const std::string image = ", image: { width: 1000, height: 2000 } }\n";

/// One submission "x".
struct One : Scratch {
  explicit One(const std::string& manifest) { write("x/submission.yaml", manifest); }
  std::string error() const {
    const auto read = read_submission({"x", {}, path / "x"}, {});
    REQUIRE_FALSE(read);
    return to_string(read.error());
  }
};

std::string error_of_manifest(const std::string& text) { return One(text).error(); }

std::string film_named(const std::string& yaml) {
  return head + golfer + "views:\n  - { view: face-on, landmarks: " + yaml + image;
}

std::string roster_error(const std::string& csv) {
  const Scratch scratch;
  scratch.write("roster.csv", csv);
  const auto roster = read_roster(scratch.path / "roster.csv");
  REQUIRE_FALSE(roster);
  return to_string(roster.error());
}

const std::string at = "x/submission.yaml:";

}  // namespace

TEST_CASE("hostile manifest: ids that climb, hide, deceive or go on for ever") {
  const std::string chars = "it may have only letters, digits, spaces and . _ - ( ) + , & '";
  const auto error = [](const std::string& written) {
    return error_of_manifest("student: " + written + "\nclub: 7-iron\n");
  };
  const auto refused = [](const std::string& shown, const std::string& why) {
    return at + "1: student: " + shown + " can't be a student's id: " + why;
  };
  CHECK(error("../good") == refused("\"../good\"", chars));
  CHECK(error("/etc/passwd") == refused("\"/etc/passwd\"", chars));
  CHECK(error("a\\..\\b") == refused("\"a\\..\\b\"", chars));
  CHECK(error("\"a\\0b\"") == refused("\"a\\x00b\"", chars));
  CHECK(error("\"a\\nb\"") == refused("\"a\\nb\"", chars));
  CHECK(error("\"\\u202Egnp\"") == refused("\"\\xe2\\x80\\xaegnp\"", chars));
  CHECK(error("..") == refused("\"..\"", "it has to start with a letter or a digit"));
  CHECK(error(".hidden") == refused("\".hidden\"", "it has to start with a letter or a digit"));
  CHECK(error("-rf") == refused("\"-rf\"", "it has to start with a letter or a digit"));
  CHECK(error("s.") == refused("\"s.\"", "it may not end with a space or a dot"));
  CHECK(error(std::string(500'000, 'x')) ==
        refused('"' + std::string(80, 'x') + "…\"", "it is longer than 100 bytes"));
}

TEST_CASE("hostile manifest: paths of films") {
  const std::string place = at + "5: views[0].landmarks: ";
  const std::string remedy = " (put the file beside submission.yaml and write its name)";
  CHECK(error_of_manifest(film_named("\"a\\0.json\"")) ==
        place + "\"a\\x00.json\" is no path" + remedy);
  CHECK(error_of_manifest(film_named("\"\"")) == place + "\"\" is no path" + remedy);
  CHECK(error_of_manifest(film_named("[a/../../b.json]")) ==
        place + "\"a/../../b.json\" leads out of the submission's folder" + remedy);
  CHECK(error_of_manifest(film_named("'..\\b.json'")) == place + "there is no file \"..\\b.json\"");
  CHECK(error_of_manifest(film_named(std::string(5000, 'x'))) ==
        place + "there is no file \"" + std::string(80, 'x') + "…\"");
}

TEST_CASE("hostile manifest: things that are no files do not hold up the night") {
  const One one(film_named("film.json"));
  const fs::path film = one.path / "x/film.json";
  REQUIRE(::mkfifo(film.c_str(), 0600) == 0);
  CHECK(one.error() == "x/film.json: isn't a file");
  fs::remove(film);
  fs::create_symlink("/dev/zero", film);
  CHECK(one.error() == "x/film.json: is a link that leads out of the submission's folder");
  fs::remove(film);
  fs::create_symlink("film.json", film);
  CHECK(one.error() == "x/film.json: is a link that leads nowhere (put the file itself there)");
  fs::remove(film);
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  REQUIRE(film.string().size() < sizeof(address.sun_path));
  std::strcpy(address.sun_path, film.c_str());
  const int socket = ::socket(AF_UNIX, SOCK_STREAM, 0);
  REQUIRE(::bind(socket, reinterpret_cast<const sockaddr*>(&address), sizeof(address)) == 0);
  CHECK(one.error() == "x/film.json: can't be read: No such device or address");
  ::close(socket);
  fs::remove(film);
  fs::create_directory(film);
  CHECK(one.error() == "x/film.json: holds no landmark files (.json, one a frame)");
  fs::create_directory(film / "1.json");
  CHECK(one.error() == "x/film.json/1.json: isn't a file");
  fs::remove(film / "1.json");
  fs::create_directory_symlink("..", film / "1.json");
  CHECK(one.error() == "x/film.json/1.json: isn't a file");

  const fs::path manifest = one.path / "x/submission.yaml";
  fs::remove(manifest);
  REQUIRE(::mkfifo(manifest.c_str(), 0600) == 0);
  CHECK(one.error() == "x/submission.yaml: isn't a file");
  fs::remove(manifest);
  fs::create_directory(manifest);
  CHECK(one.error() == "x/submission.yaml: isn't a file");
  fs::remove(manifest);
  fs::create_symlink("/etc/hostname", manifest);
  CHECK(one.error() == "x/submission.yaml: is a link (copy the file itself)");
}

TEST_CASE("hostile sizes: what is too large is not even read") {
  const One one(film_named("film.json"));
  one.write("x/film.json", "");
  fs::resize_file(one.path / "x/film.json", std::uintmax_t{1} << 33);  // all of it a hole
  CHECK(one.error() == "x/film.json: is larger than 256 MiB (cut the film to the swing itself)");
  fs::resize_file(one.path / "x/submission.yaml", (std::uintmax_t{1} << 20) + 1);
  CHECK(one.error() == "x/submission.yaml: is larger than 1 MiB (check that it is the right file)");
  one.write("x/submission.yaml", samples::gzipped(std::string((1u << 20) + 1, ' ')));
  CHECK(fs::file_size(one.path / "x/submission.yaml") < 2000);
  CHECK(one.error() == "x/submission.yaml: is larger than 1 MiB (check that it is the right file)");
}

TEST_CASE("hostile sizes: a film of many large files") {
  const One one(film_named("[a.json, b.json]"));
  for (const auto* name : {"x/a.json", "x/b.json"}) {
    one.write(name, "");
    fs::resize_file(one.path / name, largest_film / 2 + 1);
  }
  CHECK(one.error() == at + "5: views[0].landmarks: the files of this film are larger than 256 MiB "
                            "together (cut the film to the swing itself)");
}

TEST_CASE("hostile manifest: YAML that would grow, or never end") {
  std::string bomb = "a0: &a0 lol\n";
  for (int i = 1; i < 30; ++i) {
    const std::string before = "*a" + std::to_string(i - 1);
    bomb +=
        'a' + std::to_string(i) + ": &a" + std::to_string(i) + " [" + before + ',' + before + "]\n";
  }
  CHECK(error_of_manifest(head + bomb) ==
        at + "4: YAML aliases (*name) are not accepted (write the value out)");
  CHECK(error_of_manifest(head + "observed: " + std::string(40, '[') + std::string(40, ']')) ==
        at + "3: is nested more than 32 deep");
  CHECK(error_of_manifest(head + "observed: " + std::string(500'000, '[')) ==
        at + "3: is nested more than 32 deep");
  std::string steps = "- ";
  for (int i = 0; i < 15; ++i) steps += steps;
  CHECK(error_of_manifest(steps) == at + "1: is nested more than 32 deep");
  std::string keys;
  for (int i = 0; i < 1001; ++i) keys += 'k' + std::to_string(i) + ": 1\n";
  CHECK(error_of_manifest(keys) == at + "1001: more than 1000 keys stand in one map");
  CHECK(error_of_manifest(head + "observed: [" + repeated("1", 50'001) + "]\n") ==
        at + "3: holds more than 50000 values");
  CHECK(error_of_manifest(head + "club: driver\n") ==
        at + "3: club: this key stands here twice (keep one of the two)");
  CHECK(error_of_manifest(head + std::string(300'000, 'x') + ": 1\nviews: []\n").size() < 300);
}

TEST_CASE("hostile manifest: bytes that are no text") {
  CHECK(error_of_manifest("student: s-1\nclub: \"7\xc0\xaf\"\n").starts_with(at + "2: club: "));
  CHECK(error_of_manifest(std::string("\xff\xfe"
                                      "a\0:\0",
                                      6))
            .starts_with("x/submission.yaml"));
  CHECK(error_of_manifest(std::string("\0\0\0\0", 4)).starts_with("x/submission.yaml"));
  CHECK(error_of_manifest("\x1f\x8b") ==
        "x/submission.yaml: is cut short or damaged (gzip) (send the file again)");
  CHECK(error_of_manifest(samples::gzipped(samples::gzipped(head))) ==
        "x/submission.yaml: is compressed twice (compress it once, or not at all)");
}

TEST_CASE("hostile manifest: numbers that are none") {
  const auto error = [](const std::string& line) {
    return error_of_manifest(
        head + golfer + "views:\n  - view: face-on\n    landmarks: f.json\n    " + line + "\n");
  };
  for (const std::string number : {".nan", ".inf", "NaN", "1e999", "0x10", "1_000", "∞"})
    CHECK(error("frame-rate: " + number) ==
          at + "7: views[0].frame-rate: \"" + number + "\" isn't a number");
  CHECK(error("frame-rate: -0") == at + "7: views[0].frame-rate: -0 is outside 1 to 10000");
  CHECK(error("frame-rate: 1e308") == at + "7: views[0].frame-rate: 1e+308 is outside 1 to 10000");
  CHECK(error("image: { width: 1e9, height: 5 }") ==
        at + "7: views[0].image.width: 1000000000 is outside 16 to 20000");
  CHECK(error("ball: [1e999, 2]") ==
        at + "7: views[0].ball: should be a point in pixels, or the word ball where the film shows "
             "it (write it as [612, 1540])");
  CHECK(error("clicks: [{ frame: 1e300, ball: [1, 2] }]") ==
        at + "7: views[0].clicks[0].frame: should be a whole number from 0");
  CHECK(error("clicks: [{ time: 1e999 s, ball: [1, 2] }]").starts_with(at + "7: "));
}

TEST_CASE("hostile roster: sizes, quotes, names") {
  CHECK(roster_error("id,name\ns-1,\"" + std::string(1'000'000, 'x')) ==
        "roster.csv:2: a quotation mark is opened and never closed");
  std::string columns = "id";
  for (int i = 0; i < 1'000'000; ++i) columns += ",c";
  CHECK(roster_error(columns + "\n").starts_with("roster.csv:1: there is no column \"c\" ("));
  CHECK(roster_error("id,name\ns-1" + std::string(1'000'000, ',') + "x\n") ==
        "roster.csv:2: has more cells than the header has columns (put cells with commas into "
        "quotation marks)");
  CHECK(roster_error("id\n" + std::string(1'000'000, 'x') + "\n") ==
        "roster.csv:2: id: \"" + std::string(80, 'x') +
            "…\" can't be an id: it is longer than 100 bytes");
  CHECK(roster_error(std::string((8u << 20) + 1, '\n')) ==
        "roster.csv: is larger than 8 MiB (check that it is the right file)");
  CHECK(roster_error(std::string("\xff\xfei\0d\0", 6)).starts_with("roster.csv:1: "));
  CHECK(roster_error(std::string("id\ns\0-1\n", 8)).starts_with("roster.csv:2: id: "));

  const Scratch scratch;
  std::string many = "id\n";
  for (int i = 0; i < 700'000; ++i) many += 's' + std::to_string(i) + '\n';
  scratch.write("roster.csv", many);
  const auto roster = read_roster(scratch.path / "roster.csv");
  REQUIRE(roster);
  CHECK(roster->size() == 700'000);
  fs::remove(scratch.path / "roster.csv");
  REQUIRE(::mkfifo((scratch.path / "roster.csv").c_str(), 0600) == 0);
  CHECK(to_string(read_roster(scratch.path / "roster.csv").error()) == "roster.csv: isn't a file");
}
