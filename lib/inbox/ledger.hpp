// SPDX-License-Identifier: MIT
// The history file as a run uses it: what is known of each submission, and what its student's
// earlier ones were. Inside inbox only.
#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "history/progress.hpp"
#include "history/store.hpp"
#include "inbox/queues.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

/// For all workers: one uses it at a time.
class Ledger {
 public:
  /// Reads what is known. All that a run records, it records as of `now`.
  static Result<std::unique_ptr<Ledger>> open(history::Store store, std::chrono::sys_seconds now);

  const history::Store& store() const { return store_; }
  std::chrono::sys_seconds now() const { return now_; }
  /// How a submission was last worked through before this run.
  std::optional<history::Worked> known(const std::string& submission) const;

  /// Stands for the submissions of a student that a page about one with this club and swing, which
  /// arrived at `arrival`, knows of: it changes when any of them or its grade does.
  std::string earlier(const std::string& student, const std::string& club, const std::string& swing,
                      const history::Arrival& arrival, const Waits& waits) const;
  /// The student's submissions up to this one. Those that wait for their turn will be recorded
  /// anew by this run: what the history holds of them does not count.
  Result<history::Course> course_of(const report::Graded& graded, const history::Arrival& arrival,
                                    const Waits& waits) const;

  /// To be called before outputs of a submission change, so that a run that is killed meanwhile
  /// leaves one that is worked through again.
  Result<Nothing> begin(const std::string& submission);
  /// To be called when they are all written; `entry` is that of `graded`, with its summary packed
  /// in `worked`.
  Result<Nothing> keep(const history::Worked& worked, const report::Graded& graded,
                       const report::Entry& entry);
  Result<Nothing> keep(const history::Worked& worked);
  Result<Nothing> restamp(const std::string& submission, const std::string& stamp);

  /// What tables say of these submissions, which were graded.
  report::Entries entries_of(std::span<const report::Summary> graded) const;

  /// By which a run knows that the tables would say what they say.
  Result<std::string> tables() const;
  Result<Nothing> set_tables(const std::string& hash);

 private:
  Ledger(history::Store store, std::chrono::sys_seconds now)
      : store_(std::move(store)), now_(now) {}
  void note_last(history::Last last);

  mutable std::mutex using_;
  history::Store store_;
  std::chrono::sys_seconds now_;
  std::map<std::string, history::Worked> known_;
  std::map<std::string, history::Last> last_;                      ///< by submission
  std::map<std::string, std::map<std::string, std::int64_t>> of_;  ///< by student and submission
};

}  // namespace rangecheck::inbox
