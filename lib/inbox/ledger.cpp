// SPDX-License-Identifier: MIT
#include "inbox/ledger.hpp"

#include <algorithm>

#include "base/digest.hpp"
#include "base/instant.hpp"
#include "inbox/recorded.hpp"

namespace rangecheck::inbox {
namespace {

constexpr auto tables_note = "tables";

history::Arrival arrival_of(const history::Last& last) {
  return {parse_instant(last.received).value_or(last.first_recorded), last.submission};
}

/// Whether a submission is earlier than the one that arrived at `arrival`.
bool is_earlier(const history::Arrival& other, const history::Arrival& arrival,
                const Waits& waits) {
  return other.submission != arrival.submission && other < arrival && !waits(other.submission);
}

}  // namespace

Result<std::unique_ptr<Ledger>> Ledger::open(history::Store store, std::chrono::sys_seconds now) {
  std::unique_ptr<Ledger> ledger(new Ledger(std::move(store), now));
  auto known = ledger->store_.all_worked();
  if (!known) return known.error();
  for (auto& worked : *known) {
    const std::string submission = worked.submission;
    ledger->known_.emplace(submission, std::move(worked));
  }
  auto last = ledger->store_.last_gradings();
  if (!last) return last.error();
  for (auto& one : *last) ledger->note_last(std::move(one));
  return ledger;
}

void Ledger::note_last(history::Last last) {
  history::Last& known = last_[last.submission];
  if (!known.student.empty() && known.student != last.student)
    of_[known.student].erase(last.submission);
  of_[last.student][last.submission] = last.id;
  known = std::move(last);
}

std::optional<history::Worked> Ledger::known(const std::string& submission) const {
  const std::scoped_lock one_at_a_time(using_);
  const auto found = known_.find(submission);
  return found == known_.end() ? std::nullopt : std::optional(found->second);
}

std::string Ledger::earlier(const std::string& student, const std::string& club,
                            const std::string& swing, const history::Arrival& arrival,
                            const Waits& waits) const {
  const std::scoped_lock one_at_a_time(using_);
  std::vector<std::pair<history::Arrival, std::int64_t>> all;
  if (const auto theirs = of_.find(student); theirs != of_.end())
    for (const auto& [submission, id] : theirs->second) {
      const history::Last& last = last_.at(submission);
      const auto other = arrival_of(last);
      if (last.club == club && last.swing == swing && is_earlier(other, arrival, waits))
        all.emplace_back(other, id);
    }
  std::ranges::sort(all);
  Digest digest;
  for (const auto& [other, id] : all) digest.add(id);
  return digest.hex();
}

Result<history::Course> Ledger::course_of(const report::Graded& graded,
                                          const history::Arrival& arrival,
                                          const Waits& waits) const {
  const std::scoped_lock one_at_a_time(using_);
  auto earlier = store_.of_student(graded.student);
  if (!earlier) return earlier.error();
  std::erase_if(*earlier, [&](const history::Dated& each) {
    return !is_earlier(history::arrival_of(each), arrival, waits);
  });
  return history::course_of(*std::move(earlier), {record_of(graded), arrival.at});
}

Result<Nothing> Ledger::begin(const std::string& submission) {
  const std::scoped_lock one_at_a_time(using_);
  if (known_.erase(submission) == 0) return Nothing{};
  return store_.begin(submission);
}

Result<Nothing> Ledger::keep(const history::Worked& worked, const report::Graded& graded,
                             const report::Entry& entry) {
  const std::string checks = report::packed(entry.checks);
  history::Record record = record_of(graded);
  record.inputs = worked.inputs;
  record.taught = worked.taught;
  const std::scoped_lock one_at_a_time(using_);
  const auto kept = store_.keep(worked, checks, &record, now_);
  if (!kept) return kept.error();
  const auto known = last_.find(worked.submission);
  const bool is_theirs = known != last_.end() && known->second.student == worked.student;
  note_last({.id = *kept,
             .submission = worked.submission,
             .student = worked.student,
             .received = worked.received,
             .club = worked.club,
             .swing = worked.swing,
             .first_recorded = is_theirs ? known->second.first_recorded : now_});
  return Nothing{};
}

Result<Nothing> Ledger::keep(const history::Worked& worked) {
  const std::scoped_lock one_at_a_time(using_);
  const auto kept = store_.keep(worked, "", nullptr, now_);
  if (!kept) return kept.error();
  return Nothing{};
}

Result<Nothing> Ledger::restamp(const std::string& submission, const std::string& stamp) {
  const std::scoped_lock one_at_a_time(using_);
  known_.at(submission).stamp = stamp;
  return store_.restamp(submission, stamp);
}

report::Entries Ledger::entries_of(std::span<const report::Summary> graded) const {
  return [this, graded](const std::function<void(const report::Entry&)>& use) -> Result<Nothing> {
    for (const auto& summary : graded) {
      const auto bytes = store_.checks_of(summary.submission);
      if (!bytes) return bytes.error();
      auto checks = report::unpacked_checks(*bytes);
      if (!checks) return checks.error();
      use({summary, *std::move(checks)});
    }
    return Nothing{};
  };
}

Result<std::string> Ledger::tables() const { return store_.note(tables_note); }

Result<Nothing> Ledger::set_tables(const std::string& hash) {
  return store_.set_note(tables_note, hash);
}

}  // namespace rangecheck::inbox
