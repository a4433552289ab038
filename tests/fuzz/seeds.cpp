// SPDX-License-Identifier: MIT
// What fuzzers begin with: each form of landmark file with one frame or two, written by the
// generator, a small history, and the project's own files. Takes the folder to write into.
#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "base/compress.hpp"
#include "generator/club_file.hpp"
#include "generator/dialects/dialects.hpp"
#include "generator/drawn.hpp"
#include "history/sqlite.hpp"
#include "history/store.hpp"
#include "intake/record.hpp"
#include "report/report.hpp"

using namespace rangecheck;
namespace fs = std::filesystem;

namespace {

void write(const fs::path& file, const std::string& content) {
  fs::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << content;
}

std::string content_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// One seed of several files: a byte of 0 stands between them.
std::string joined(const std::vector<samples::NamedText>& files) {
  std::string out;
  for (const auto& file : files) out += (out.empty() ? "" : std::string(1, '\0')) + file.text;
  return out;
}

/// Small, since a fuzzer gets farther with small inputs.
samples::Scene short_scene() {
  samples::Scene scene = samples::made_up_scene();
  scene.frames.resize(2);
  return scene;
}

void write_films(const fs::path& folder) {
  const samples::Scene scene = short_scene();
  std::size_t number = 0;
  for (const auto& dialect : samples::all_dialects())
    write(folder / (std::string(dialect.form) + '-' + std::to_string(number++)),
          joined(dialect.write(scene)));
  samples::Film film = samples::film_of(samples::draw(1).films.front(), 30, samples::Hand::right);
  film.frames.resize(std::min<std::size_t>(film.frames.size(), 3));
  write(folder / "club-detector", samples::club_file(film));
  write(folder / "plain-with-club", samples::plain_form(film));
  for (const std::string text : {"", "[1, 2, 3]"})
    write(folder / ("gzip-" + std::to_string(text.size())), samples::gzipped(text));
}

void write_submissions(const fs::path& folder, const fs::path& samples) {
  write(folder / "roster.csv", content_of(samples / "roster.csv"));
  write(folder / "loose-name", "s-1_7-iron_full_face-on.jsonl.gz");
  for (const auto& entry : fs::directory_iterator(samples / "inbox"))
    if (fs::exists(entry.path() / "submission.yaml"))
      write(folder / entry.path().filename(), content_of(entry.path() / "submission.yaml"));
}

/// The whole lines at the beginning of a long text.
std::string beginning_of(std::string text) {
  constexpr std::size_t longest = 6000;
  if (text.size() > longest) text.resize(text.rfind('\n', longest) + 1);
  return text;
}

/// The files of one folder of profiles as seeds that begin with a line that says which one it is.
void write_taught(const fs::path& folder, const fs::path& profiles, const fs::path& part) {
  for (const auto& entry : fs::directory_iterator(profiles / part)) {
    if (!entry.is_regular_file()) continue;
    const fs::path name = part / entry.path().filename();
    std::string seed = name.string();
    std::replace(seed.begin(), seed.end(), '/', '-');
    write(folder / seed, "# " + name.string() + '\n' + beginning_of(content_of(entry.path())));
  }
}

history::Record made_up_record(const std::string& submission, double metres) {
  history::Record record;
  record.submission = submission;
  record.student = "s-1";
  record.received = "2026-05-01";
  record.club = "7-iron";
  record.swing = "full";
  record.profile = "iron";
  record.version = "1";
  record.percent = 80;
  record.work_on = {"address.stance-width"};
  history::CheckRecord check;
  check.id = "address.stance-width";
  check.title = "Stance width";
  check.dimension = Dimension::length;
  check.unit = "cm";
  check.verdict = grade::Verdict::low;
  check.value_si = metres;
  record.checks = {check};
  return record;
}

void write_records(const fs::path& folder) {
  const auto held = [](std::string text) { return Result<std::string>(std::move(text)); };
  samples::Film film = samples::film_of(samples::draw(1).films.front(), 30, samples::Hand::right);
  film.frames.resize(1);
  intake::Record record;
  record.id = "x-1";
  record.files["submission.yaml"] = held(
      "student: s-1\nclub: 7-iron\nviews:\n  - view: face-on\n    landmarks: film.json\n"
      "    image: { width: 1080, height: 1920 }\n    frame-rate: 30\n");
  record.files["film.json"] = held(samples::plain_form(film));
  record.files["film.json.gz"] = held(samples::gzipped("[]"));
  record.files["film.mp4"] = std::nullopt;
  record.files["link.json"] =
      Result<std::string>(Error{Fault::bad_value, "is a link", {}, "copy the file itself"});
  intake::Record later = record;
  later.id = "x-2";
  later.earlier = {record};
  for (const auto* one : {&record, &later}) write(folder / one->id, *intake::record_line(*one));
  const report::SetAside why{"x-3", {Fault::bad_value, "is a link", {}, ""}};
  write(folder / why.submission, report::set_aside_json(why, std::nullopt));
}

void write_entries(const fs::path& folder) {
  constexpr std::size_t largest = std::size_t{1} << 20;
  report::CheckEntry check;
  check.check.id = "address.stance-width";
  check.accept = {"level"};
  check.value_si = 0.4;
  report::Summary summary;
  summary.submission = "x-1";
  summary.percent = 80;
  summary.work_on = {check.check};
  write(folder / "summary", *decompressed(report::packed(summary), largest));
  write(folder / "checks", *decompressed(report::packed(std::array{check, check}), largest));
}

void write_readings(const fs::path& folder) {
  const std::string rows =
      "submission,student,position,check,unit,value,u,verdict\r\n"
      "x-1,s-1,address,stance-width,in,14,0.5,inside\r\n"
      "x-1,s-1,top,shoulder-turn,deg,90,4,low\r\n"
      "x-2,s-1,,impact/hip-turn,rad,0.7,,\r\n";
  const std::string by_student = "student,check,value,unit\ns-1,\"ball-position\",45,%\n";
  write(folder / "checks", rows);
  write(folder / "two-tables", rows + '\0' + by_student);
}

/// False when it can't be written.
bool write_history(const fs::path& file) {
  fs::create_directories(file.parent_path());
  fs::remove(file);
  {
    auto store = history::Store::open(file);
    if (!store) return false;
    for (int night = 0; night < 3; ++night) {
      const auto at =
          std::chrono::sys_seconds(std::chrono::seconds(1'777'000'000 + night * 86'400));
      if (!store->add(made_up_record("x-" + std::to_string(night), 0.3 + 0.02 * night), at))
        return false;
    }
  }
  // Small pages, so that a change meets something.
  history::sqlite::Database database(file.string());
  return database.open(file) && database.execute("PRAGMA journal_mode = DELETE") &&
         database.execute("PRAGMA page_size = 512") && database.execute("VACUUM");
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) return 2;
  const fs::path folder = arguments[1];
  const fs::path source = RANGECHECK_SOURCE_DIR;
  write_films(folder / "films");
  write_submissions(folder / "submissions", source / "samples");
  for (const auto* part : {"", "parts", "preset", "layouts", "words", "words/advice"})
    write_taught(folder / "taught", source / "profiles", part);
  write_records(folder / "records");
  write_entries(folder / "entries");
  write_readings(folder / "readings");
  return write_history(folder / "history" / "three-nights") ? 0 : 1;
}
