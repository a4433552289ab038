// SPDX-License-Identifier: MIT
#include "inbox/inbox.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <exception>
#include <mutex>
#include <set>
#include <span>
#include <thread>

#include "base/folder_lock.hpp"
#include "base/text.hpp"
#include "history/store.hpp"
#include "inbox/naming.hpp"
#include "inbox/output.hpp"
#include "inbox/queues.hpp"
#include "inbox/recorded.hpp"

namespace rangecheck::inbox {
namespace {

using Outcome = Result<report::Graded, report::SetAside>;

/// What all submissions of a run are read and graded with.
struct Taught {
  grade::ProfileSet profiles;
  intake::LayoutSet layouts;
  intake::Roster roster;
  Catalogues words;
};

/// The files that a run is taught by; an error is a mistake in the command, not a bad night.
Result<Taught> read_taught(const Job& job) {
  auto profiles = grade::load_profiles(job.profiles);
  if (!profiles) return profiles.error();
  auto layouts = intake::load_layouts(job.profiles / "layouts");
  if (!layouts) return layouts.error();
  Taught taught{std::move(*profiles), std::move(*layouts), {}, {}};
  for (const auto language : shipped_languages()) {
    auto words = load_words(job.profiles, language);
    if (!words) return words.error();
    if (auto error = report::unknown_words(*words, taught.profiles)) return *error;
    taught.words.emplace(language, *std::move(words));
  }
  if (!job.roster) return taught;
  auto roster = intake::read_roster(*job.roster);
  if (!roster) {
    roster.error().fault = Fault::bad_profile;
    return roster.error();
  }
  taught.roster = std::move(*roster);
  return taught;
}

/// Submissions of this run that a queue has not come to: all but its own that are done.
struct Waiting {
  const std::set<std::string>& all;
  std::set<std::string> done = {};
  bool has(const std::string& submission) const {
    return all.contains(submission) && !done.contains(submission);
  }
};

/// The history file, for all workers: one uses it at a time.
class History {
 public:
  /// All that a run records, it records as of `now`.
  History(history::Store store, std::chrono::sys_seconds now)
      : store_(std::move(store)), now_(now) {}

  Result<std::vector<Queue>> queues_of(std::span<const intake::Location> locations,
                                       const Naming& naming) const {
    return inbox::queues_of(locations, naming, store_, now_);
  }

  /// The student's submissions up to this one, which arrived at `arrival`. Those `waiting` will be
  /// recorded anew by this run: what the history holds of them counts no longer.
  Result<history::Course> course_of(const report::Graded& graded, const history::Arrival& arrival,
                                    const Waiting& waiting) {
    const std::scoped_lock one_at_a_time(using_);
    auto earlier = store_.of_student(graded.student);
    if (!earlier) return earlier.error();
    std::erase_if(*earlier, [&](const history::Dated& each) {
      const auto other = arrival_of(each);
      return other.submission == arrival.submission || other > arrival ||
             waiting.has(other.submission);
    });
    return history::course_of(*std::move(earlier), {record_of(graded), arrival.at});
  }

  Result<Nothing> keep(const report::Graded& graded) {
    const history::Record record = record_of(graded);
    const std::scoped_lock one_at_a_time(using_);
    const auto kept = store_.add(record, now_);
    if (!kept) return kept.error();
    return Nothing{};
  }

 private:
  std::mutex using_;
  history::Store store_;
  std::chrono::sys_seconds now_;
};

/// What every submission of a run is worked through with.
struct Means {
  const Taught& taught;
  const Output& output;
  const Naming& naming;
  History& history;
};

/// One submission, read, graded, written and kept. Whatever goes wrong stays its own affair, an
/// exception out of a library included.
Result<report::Graded> process(const intake::Location& location, const history::Arrival& arrival,
                               const Waiting& waiting, const Means& means) {
  try {
    auto submission = intake::read_submission(location, means.taught.roster, means.taught.layouts);
    if (!submission) return submission.error();
    if (const auto renamed = means.naming.rename(*submission); !renamed) return renamed.error();
    auto graded = grade_one(*submission, means.taught.profiles);
    if (!graded) return graded;
    means.naming.rename(location, *graded);
    auto course = means.history.course_of(*graded, arrival, waiting);
    if (!course) return course.error();
    graded->course = *std::move(course);
    if (const auto written = means.output.write(*graded); !written) return written.error();
    if (const auto kept = means.history.keep(*graded); !kept) return kept.error();
    return graded;
  } catch (const std::exception& thrown) {
    return Error{Fault::unreadable,
                 std::string("could not be worked through: ") + thrown.what(),
                 {},
                 "please report this, with the submission"};
  }
}

/// Calls `work(i)` once for each i below `count`, on `workers` threads.
template <class Work>
void on_workers(unsigned workers, std::size_t count, const Work& work) {
  std::atomic<std::size_t> next = 0;
  const auto take_turns = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::jthread> threads;
  for (std::size_t i = 1; i < std::min<std::size_t>(workers, count); ++i)
    threads.emplace_back(take_turns);
  take_turns();
}

/// For each location its outcome, in the same order.
std::vector<std::optional<Outcome>> process_all(const Job& job,
                                                const std::vector<intake::Location>& locations,
                                                const std::vector<Queue>& queues,
                                                const Means& means) {
  std::vector<std::optional<Outcome>> outcomes(locations.size());
  std::mutex telling;
  std::size_t done = 0;
  const unsigned workers =
      job.workers > 0 ? job.workers : std::max(1U, std::thread::hardware_concurrency());
  std::set<std::string> all;
  for (const auto& location : locations) all.insert(means.naming.of_submission(location.id));
  on_workers(workers, queues.size(), [&](std::size_t queue) {
    Waiting waiting{all};
    for (const auto& [i, arrival] : queues[queue]) {
      const auto began = std::chrono::steady_clock::now();
      auto graded = process(locations[i], arrival, waiting, means);
      outcomes[i] = graded ? Outcome(*std::move(graded))
                           : means.naming.rename(locations[i], std::move(graded.error()));
      waiting.done.insert(arrival.submission);
      const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
      const std::scoped_lock one_at_a_time(telling);
      ++done;
      if (!job.on_progress) continue;
      const Outcome& outcome = *outcomes[i];
      job.on_progress({done, locations.size(),
                       outcome ? outcome->submission : outcome.error().submission,
                       outcome ? nullptr : &outcome.error().error, took.count()});
    }
  });
  return outcomes;
}

}  // namespace

std::filesystem::path history_file(const std::filesystem::path& out) {
  return out / "history.sqlite";
}

std::string_view version() { return RANGECHECK_VERSION; }

Result<Night> run(const Job& job) {
  const auto taught = read_taught(job);
  if (!taught) return taught.error();
  auto locations = intake::find_submissions(job.inbox);
  if (!locations) {
    Error& error = locations.error();
    error.fault = Fault::io;
    if (error.where.file.empty()) error.where.file = printable(job.inbox.string());
    return error;
  }
  const auto output = Output::open(job, taught->words);
  if (!output) return output.error();
  const auto here = FolderLock::now(job.out, FolderLock::Kind::shared);
  if (!here) return here.error();
  auto store = history::Store::open(history_file(job.out));
  if (!store) return store.error();
  const auto naming = Naming::open(job, taught->roster, *locations, *store);
  if (!naming) return naming.error();
  naming->sort(*locations);
  History history(*std::move(store),
                  std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()));
  const auto queues = history.queues_of(*locations, *naming);
  if (!queues) return queues.error();

  Night night;
  const Means means{*taught, *output, *naming, history};
  for (auto& outcome : process_all(job, *locations, *queues, means)) {
    if (*outcome) {
      night.graded.push_back(**std::move(outcome));
      continue;
    }
    night.set_aside.push_back(std::move(outcome->error()));
    if (auto written = output->write(night.set_aside.back()); !written) return written.error();
  }
  if (auto written = output->write_tables(night); !written) return written.error();
  return night;
}

}  // namespace rangecheck::inbox
