// SPDX-License-Identifier: MIT
#include "inbox/output.hpp"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <system_error>

#include "base/digest.hpp"
#include "base/publish_parts.hpp"
#include "inbox/folders.hpp"

namespace rangecheck::inbox {

namespace fs = std::filesystem;

namespace {

/// What files about a submission are called. One whose own name can't be used is told of too, under
/// a name that is no other's: its plain letters after a sign that no id begins with, and what tells
/// apart those that look alike.
std::string file_name_for(const std::string& id) {
  if (!intake::why_unsafe(id)) return id;
  constexpr std::size_t longest = 60;
  std::string name = "_";
  for (const char c : id.substr(0, longest)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    name += plain || c == '-' ? c : '_';
  }
  Digest all;
  all.add(id);
  return name + '-' + all.hex();
}

constexpr std::array tables = {"checks.csv", "submissions.csv", "coach.html", "rangecheck.xlsx"};

bool is_file(const fs::path& path) {
  std::error_code failed;
  return fs::symlink_status(path, failed).type() == fs::file_type::regular;
}

}  // namespace

Result<Output> Output::open(const Job& job, Catalogues words) {
  if (lies_in(job.out, job.inbox))
    return error_at(Fault::bad_value, "the output folder is in the inbox", job.out,
                    "name a folder elsewhere");
  if (auto made = make_private_folders(job.out); !made) return made.error();
  if (::access(job.out.c_str(), W_OK | X_OK) != 0) {
    const int why = errno;
    return error_at(Fault::io,
                    "can't write in the output folder: " + std::generic_category().message(why),
                    job.out, disk_remedy(why, job.out));
  }
  Output output(job, std::move(words));
  for (const auto* part : {"students", "set-aside"})
    if (auto refused = refuse_link(job.out / part); !refused) return refused.error();
  return output;
}

fs::path Output::set_aside_file(const std::string& submission) const {
  return folder_ / "set-aside" / (file_name_for(submission) + ".txt");
}

const Words& Output::words_for(const report::Graded& graded) const {
  return words_.at(graded.language.empty() ? language_ : graded.language);
}

Result<Nothing> Output::write(const report::Graded& graded) const {
  const fs::path folder = report_folder(folder_, graded.submission);
  if (auto refused = refuse_link(folder); !refused) return refused;
  auto written =
      publish(folder / "report.txt", report::student_text(graded, length_unit_, words_for(graded)));
  if (written)
    written = publish(folder / "page.html",
                      report::student_html(graded, length_unit_, words_for(graded)));
  if (written) written = publish(folder / "result.json", report::result_json(graded));
  // Last, so that a run killed in between never leaves a submission without a word about it.
  if (written) written = remove_file(set_aside_file(graded.submission));
  return written;
}

Result<Nothing> Output::write(const report::SetAside& set_aside) const {
  auto written = publish(set_aside_file(set_aside.submission), report::set_aside_text(set_aside));
  const fs::path folder = report_folder(folder_, set_aside.submission);
  if (written) written = refuse_link(folder);
  for (const auto file : report_files)
    if (written) written = remove_file(folder / file);
  std::error_code not_empty;  // someone else's file in there is theirs to keep
  if (written) fs::remove(folder, not_empty);
  return written;
}

Result<Nothing> Output::write_tables(const report::Entries& graded, const Night& night) const {
  auto written = publish_in_parts(folder_ / "checks.csv", [&](const Write& write) {
    return report::csv_long(graded, length_unit_, write);
  });
  if (written)
    written = publish_in_parts(folder_ / "submissions.csv", [&](const Write& write) {
      return report::csv_wide(graded, length_unit_, write);
    });
  if (!written) return written;
  const auto page =
      report::coach_html(graded, night.set_aside, night.waiting, words_.at(language_));
  if (!page) return page.error();
  written = publish(folder_ / "coach.html", *page);
  if (written)
    written = publish_made(folder_ / "rangecheck.xlsx", [&](const fs::path& file) {
      return report::write_workbook(file, graded, night.set_aside, length_unit_);
    });
  return written;
}

void Output::remove_leftovers() const {
  for (const auto* part : {".", "students", "set-aside"})
    rangecheck::remove_leftovers(folder_ / part);
  std::error_code failed;
  for (fs::directory_iterator each(folder_ / "students", failed), end; !failed && each != end;
       each.increment(failed))
    if (!each->is_symlink(failed)) rangecheck::remove_leftovers(each->path());
}

bool Output::has_report(const std::string& submission) const {
  const fs::path folder = report_folder(folder_, submission);
  return std::ranges::all_of(report_files, [&](const auto file) { return is_file(folder / file); });
}

bool Output::has_set_aside(const std::string& submission) const {
  return is_file(set_aside_file(submission));
}

bool Output::has_tables() const {
  return std::ranges::all_of(tables, [&](const auto* file) { return is_file(folder_ / file); });
}

}  // namespace rangecheck::inbox
