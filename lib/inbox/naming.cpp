// SPDX-License-Identifier: MIT
#include "inbox/naming.hpp"

#include <algorithm>
#include <mutex>
#include <optional>
#include <system_error>

#include "base/text.hpp"
#include "inbox/folders.hpp"
#include "inbox/key_file.hpp"
#include "inbox/masked.hpp"

namespace rangecheck::inbox {

namespace fs = std::filesystem;

struct Naming::Inside {
  std::mutex key_in_use;
  std::optional<KeyFile> key;
  const intake::Roster* roster = nullptr;
  std::map<std::string, std::string> students = {};  ///< by pseudonym

  /// Whoever is known by name, and what to write instead.
  Masks masks() const {
    Masks masks;
    for (const auto& [id, golfer] : *roster) {
      masks[golfer.name] = "…";
      for (const auto word : split(golfer.name, ' '))
        if (!word.empty()) masks[std::string(word)] = "…";
    }
    for (const auto& [whom, pseudonym] : key->all())
      if (whom.kind == Named::student) masks[whom.id] = pseudonym;
    return masks;
  }
};

namespace {

Result<Nothing> refuse_place(const Job& job) {
  for (const auto& [folder, name] :
       {std::pair(job.inbox, "the inbox"), std::pair(job.out, "the output folder")}) {
    if (lies_in(*job.pseudonyms, folder))
      return error_at(Fault::bad_value,
                      std::string("the key of the pseudonyms may not lie in ") + name,
                      *job.pseudonyms, "name a file that only you can read, elsewhere");
  }
  return Nothing{};
}

/// What OUT has of submissions, by the ids in names of folders and files.
std::vector<std::string> reported(const fs::path& out) {
  std::vector<std::string> ids;
  std::error_code failed;
  for (fs::directory_iterator entries(out / "students", failed), end; !failed && entries != end;
       entries.increment(failed))
    for (const auto file : report_files) {
      std::error_code ignored;
      if (fs::exists(entries->path() / file, ignored))
        ids.push_back(entries->path().filename().string());
    }
  failed.clear();
  for (fs::directory_iterator entries(out / "set-aside", failed), end; !failed && entries != end;
       entries.increment(failed))
    if (entries->path().extension() == ".txt") ids.push_back(entries->path().stem().string());
  return ids;
}

}  // namespace

Naming::Naming(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Naming::Naming(Naming&&) noexcept = default;
Naming::~Naming() = default;

Result<Naming> Naming::open(const Job& job, const intake::Roster& roster,
                            std::span<const intake::Location> locations,
                            const history::Store& history) {
  Naming naming(std::make_unique<Inside>());
  auto& key = naming.inside_->key;
  naming.inside_->roster = &roster;
  if (job.pseudonyms) {
    if (auto refused = refuse_place(job); !refused) return refused.error();
    auto read = KeyFile::read(*job.pseudonyms);
    if (!read) return read.error();
    key = *std::move(read);
  }
  // Before any is issued: a slip in the name of the key must not begin a new one.
  if (auto fits = naming.fits(job.out, history); !fits) return fits.error();
  if (!key) return naming;
  std::vector<KeyFile::Whom> whom;
  for (const auto& [id, golfer] : roster) whom.push_back({Named::student, id});
  for (const auto& location : locations) whom.push_back({Named::submission, location.id});
  if (auto issued = key->issue(whom); !issued) return issued.error();
  for (const auto& [named, pseudonym] : key->all())
    if (named.kind == Named::student) naming.inside_->students.emplace(pseudonym, named.id);
  return naming;
}

std::string Naming::of_submission(const std::string& id) const {
  const std::scoped_lock one_at_a_time(inside_->key_in_use);
  return inside_->key ? inside_->key->of({Named::submission, id}) : id;
}

std::string Naming::of_student(const std::string& id) const {
  const std::scoped_lock one_at_a_time(inside_->key_in_use);
  return inside_->key ? inside_->key->of({Named::student, id}) : id;
}

std::optional<std::string> Naming::student_called(const std::string& name) const {
  const std::scoped_lock one_at_a_time(inside_->key_in_use);
  if (!inside_->key) return name;
  const auto known = inside_->students.find(name);
  return known == inside_->students.end() ? std::nullopt : std::optional(known->second);
}

void Naming::sort(std::vector<intake::Location>& locations) const {
  std::ranges::sort(locations, {},
                    [&](const auto& location) { return of_submission(location.id); });
}

Result<Nothing> Naming::rename(intake::Submission& submission) const {
  if (!inside_->key) return Nothing{};
  {
    const KeyFile::Whom student[] = {{Named::student, submission.student}};
    const std::scoped_lock one_at_a_time(inside_->key_in_use);
    if (inside_->key->of(student[0]).empty())
      if (auto issued = inside_->key->issue(student); !issued) return issued;
  }
  submission.id = of_submission(submission.id);
  submission.student = of_student(submission.student);
  submission.golfer.name.clear();
  return Nothing{};
}

void Naming::rename(const intake::Location& location, report::Graded& graded) const {
  if (!inside_->key) return;
  const std::scoped_lock one_at_a_time(inside_->key_in_use);
  Masks masks = inside_->masks();
  masks[location.id] = graded.submission;
  for (auto& note : graded.notes) note = masked(std::move(note), masks);
}

report::SetAside Naming::rename(const intake::Location& location, Error error) const {
  const auto sender = intake::read_sender(location);
  report::SetAside out{of_submission(location.id), std::move(error),
                       sender ? of_student(sender->student) : ""};
  if (!inside_->key) return out;
  const std::scoped_lock one_at_a_time(inside_->key_in_use);
  out.error = masked(std::move(out.error), location, out.submission, inside_->masks());
  return out;
}

bool Naming::foreign(const std::string& id, bool is_student) const {
  const std::scoped_lock one_at_a_time(inside_->key_in_use);
  if (inside_->key) return !inside_->key->knows(id);
  return looks_like_pseudonym(id, is_student ? Named::student : Named::submission);
}

Result<Nothing> Naming::fits(const fs::path& out, const history::Store& history) const {
  const auto students = history.students();
  if (!students) return students.error();
  const auto ids = reported(out);
  const bool mixed =
      std::ranges::any_of(*students, [&](const auto& id) { return foreign(id, true); }) ||
      std::ranges::any_of(ids, [&](const auto& id) { return foreign(id, false); });
  if (!mixed) return Nothing{};
  return error_at(Fault::bad_value,
                  inside_->key ? "has grades under names, or under pseudonyms of another key"
                               : "has grades under pseudonyms",
                  out,
                  inside_->key ? "name another folder for what is to be under these pseudonyms"
                               : "give --pseudonyms, or name another folder");
}

}  // namespace rangecheck::inbox
