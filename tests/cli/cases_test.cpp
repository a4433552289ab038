// SPDX-License-Identifier: MIT
// Runs cases/*.yaml. A file is a list of cases:
//   - case: what a person would call it
//     copy: { inbox: samples/inbox }   # into the scratch folder, from the source tree
//     files: { path: content }         # written after that
//     fresh: [paths]                   # have changed just now; all else was there the day before
//     before: [grade, inbox, ...]      # run first; must succeed
//     args: [grade, inbox, ...]        # {source} stands for the source tree
//     exit: 0
//     stdout: [fragments]              # each must be there; likewise stderr
//     stdout-is: whole text
//     stdout-lacks, stderr-lacks: [fragments]
//     files-out: { path: [fragments] }
//     absent: [paths]
#include <doctest/doctest.h>
#include <yaml-cpp/yaml.h>

#include <chrono>
#include <fstream>
#include <set>

#include "program.hpp"

namespace rangecheck::cli {
namespace {

namespace fs = std::filesystem;

const fs::path source_dir = RANGECHECK_SOURCE_DIR;

void prepare(const YAML::Node& one, const fs::path& folder) {
  for (const auto& copy : one["copy"]) {
    const fs::path path = folder / copy.first.as<std::string>();
    fs::create_directories(path.parent_path());
    fs::copy(source_dir / copy.second.as<std::string>(), path, fs::copy_options::recursive);
  }
  for (const auto& file : one["files"]) {
    const fs::path path = folder / file.first.as<std::string>();
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << file.second.as<std::string>();
  }
  const auto now = fs::file_time_type::clock::now();
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    fs::last_write_time(entry.path(), now - std::chrono::hours(24));
  for (const auto& path : one["fresh"]) fs::last_write_time(folder / path.as<std::string>(), now);
}

std::string command_line(const YAML::Node& args) {
  std::string line = "rangecheck";
  for (const auto& arg : args) {
    auto word = arg.as<std::string>();
    const std::string mark = "{source}";
    if (const auto at = word.find(mark); at != std::string::npos)
      word.replace(at, mark.size(), source_dir.string());
    line += ' ';
    line += shell_word(word);
  }
  return line;
}

void check_fragments(const YAML::Node& fragments, const std::string& text, bool wanted) {
  for (const auto& node : fragments) {
    const auto fragment = node.as<std::string>();
    CAPTURE(text);
    CAPTURE(fragment);
    CHECK((text.find(fragment) != std::string::npos) == wanted);
  }
}

/// A key that the runner does not know would be an expectation that nobody checks.
void check_keys(const YAML::Node& one) {
  static const std::set<std::string> known = {
      "case",   "copy",   "files",     "fresh",        "before",       "args",      "exit",
      "stdout", "stderr", "stdout-is", "stdout-lacks", "stderr-lacks", "files-out", "absent"};
  for (const auto& entry : one) {
    const auto key = entry.first.as<std::string>();
    CAPTURE(key);
    CHECK(known.contains(key));
  }
}

void run_case(const YAML::Node& one) {
  const auto name = one["case"].as<std::string>();
  CAPTURE(name);
  check_keys(one);
  const Scratch scratch;
  prepare(one, scratch.path);
  if (one["before"]) CHECK(run_shell(command_line(one["before"]), scratch.path).exit_code == 0);
  const Outcome outcome = run_shell(command_line(one["args"]), scratch.path);
  CAPTURE(outcome.err);
  CHECK(outcome.exit_code == one["exit"].as<int>());
  check_fragments(one["stdout"], outcome.out, true);
  check_fragments(one["stderr"], outcome.err, true);
  check_fragments(one["stdout-lacks"], outcome.out, false);
  check_fragments(one["stderr-lacks"], outcome.err, false);
  if (one["stdout-is"]) CHECK(outcome.out == one["stdout-is"].as<std::string>());
  for (const auto& file : one["files-out"])
    check_fragments(file.second, content_of(scratch.path / file.first.as<std::string>()), true);
  for (const auto& path : one["absent"])
    CHECK_FALSE(fs::exists(scratch.path / path.as<std::string>()));
}

void run_file(const std::string& name) {
  for (const auto& one : YAML::LoadFile((source_dir / "tests/cli/cases" / name).string()))
    run_case(one);
}

TEST_CASE("cases: usage") { run_file("usage.yaml"); }
TEST_CASE("cases: grade") { run_file("grade.yaml"); }
TEST_CASE("cases: rules") { run_file("rules.yaml"); }
TEST_CASE("cases: inspect") { run_file("inspect.yaml"); }
TEST_CASE("cases: convert") { run_file("convert.yaml"); }
TEST_CASE("cases: progress") { run_file("progress.yaml"); }
TEST_CASE("cases: forget") { run_file("forget.yaml"); }
TEST_CASE("cases: layouts") { run_file("layouts.yaml"); }
TEST_CASE("cases: agreement") { run_file("agreement.yaml"); }
TEST_CASE("cases: profile") { run_file("profile.yaml"); }

}  // namespace
}  // namespace rangecheck::cli
