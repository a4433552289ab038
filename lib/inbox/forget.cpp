// SPDX-License-Identifier: MIT
#include "inbox/forget.hpp"

#include <system_error>

#include "base/text.hpp"
#include "inbox/at_work.hpp"
#include "inbox/folders.hpp"
#include "inbox/inbox.hpp"
#include "inbox/key_file.hpp"
#include "intake/submission.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

Error unknown_student(const Forgetting& what, const std::set<std::string>& others) {
  const std::vector<std::string_view> ids(others.begin(), others.end());
  const std::string near = nearest(what.student, ids);
  return error_at(
      Fault::bad_value, "knows nothing of " + rangecheck::quoted(what.student), what.out,
      near.empty() ? "name a student as the tables there do" : "did you mean " + near + "?");
}

/// The pseudonyms of the student and their submissions.
std::set<std::string> pseudonyms_of(const Forgetting& what, const Traces& traces) {
  std::set<std::string> all = traces.submissions;
  all.insert(what.student);
  return all;
}

Result<std::size_t> lines_in_key(const Forgetting& what, const Traces& traces) {
  if (!what.pseudonyms) return std::size_t{0};
  auto key = KeyFile::read(*what.pseudonyms);
  if (!key) return key.error();
  const auto theirs = pseudonyms_of(what, traces);
  if (!what.only_look) return key->strike(theirs);
  std::size_t count = 0;
  for (const auto& pseudonym : theirs) count += key->knows(pseudonym) ? 1 : 0;
  return count;
}

Result<Nothing> remove_all_of(const fs::path& path) {
  std::error_code failed;
  fs::remove_all(path, failed);
  if (!failed) return Nothing{};
  return error_at(Fault::io, "can't be removed: " + failed.message(), path,
                  "see who may write there and give the same command again");
}

Result<Nothing> remove_folder(const Traces::Folder& folder) {
  for (const auto& file : folder.files)
    if (auto removed = remove_all_of(file); !removed) return removed;
  std::error_code not_empty;
  fs::remove(folder.path, not_empty);
  return Nothing{};
}

/// What tells of other traces goes after them: tables know no folder, a report tells whose its
/// folder is, and the history knows all submissions.
Result<Nothing> remove_files(const Traces& traces) {
  for (const auto* paths : {&traces.leftovers, &traces.whole})
    for (const auto& path : *paths)
      if (auto removed = remove_all_of(path); !removed) return removed;
  for (const auto& table : traces.tables)
    if (auto written = publish(table.file, table.rest); !written) return written;
  for (const auto& file : traces.set_aside)
    if (auto removed = remove_all_of(file); !removed) return removed;
  for (const auto& folder : traces.folders)
    if (auto removed = remove_folder(folder); !removed) return removed;
  return Nothing{};
}

Result<std::optional<history::Store>> open_history(const fs::path& out) {
  std::error_code ignored;
  if (!fs::exists(fs::symlink_status(history_file(out), ignored)))
    return std::optional<history::Store>();
  auto store = history::Store::open_existing(history_file(out));
  if (!store) return store.error();
  return std::optional(*std::move(store));
}

}  // namespace

Result<Forgotten> forget(const Forgetting& what) {
  if (const auto why = intake::why_unsafe(what.student))
    return Error{Fault::bad_value,
                 rangecheck::quoted(what.student) + " can't be a student's id: it " + *why,
                 {},
                 "name a student as the tables do"};
  const auto alone = AtWork::in(what.out);
  if (!alone) return alone.error();
  auto store = open_history(what.out);
  if (!store) return store.error();
  auto traces = traces_of(what.student, what.out, *store ? &**store : nullptr);
  if (!traces) return traces.error();
  Forgotten forgotten{*std::move(traces), 0};
  const bool known = forgotten.traces.any();
  if (known) {
    // First, so that a run in between can't take up the student again under the same pseudonym.
    const auto lines = lines_in_key(what, forgotten.traces);
    if (!lines) return lines.error();
    forgotten.key_lines = *lines;
  }
  if (known && !what.only_look)
    if (auto removed = remove_files(forgotten.traces); !removed) return removed.error();
  // Also of one who is no longer known: it wipes what an earlier call was killed before wiping.
  if (*store && !what.only_look)
    if (auto wiped = (*store)->forget(what.student, forgotten.traces.submissions); !wiped)
      return wiped.error();
  if (!known) return unknown_student(what, forgotten.traces.others);
  return forgotten;
}

}  // namespace rangecheck::inbox
