// SPDX-License-Identifier: MIT
#include "inbox/inbox.hpp"

#include <algorithm>
#include <chrono>
#include <map>
#include <mutex>
#include <span>

#include "base/digest.hpp"
#include "inbox/at_work.hpp"
#include "inbox/folders.hpp"
#include "inbox/found.hpp"
#include "inbox/work.hpp"
#include "inbox/workers.hpp"

namespace rangecheck::inbox {
namespace {

/// All submissions of a run on their way: workers come back with outcomes.
class Run {
 public:
  Run(const Means& means, std::span<const intake::Location> locations)
      : means_(means),
        locations_(locations),
        workers_(workers_meant(means.job.workers)),
        stamps_(stamps_of(locations, workers_)) {}

  Result<Night> work_through_all() {
    const auto found = queues_of(locations_, stamps_, means_);
    if (!found) return found.error();
    const std::span<const Queue> queues = *found;
    const Order order(queues);
    on_workers(workers_, queues.size(), [&](std::size_t queue) {
      for (std::size_t place = 0; place < queues[queue].size() && goes_on(); ++place) {
        const auto& [i, arrival] = queues[queue][place];
        const auto began = std::chrono::steady_clock::now();
        auto outcome = inbox::work_through(
            {locations_[i], stamps_[i], arrival, order.waits(queue, place)}, means_);
        take(std::move(outcome), std::chrono::steady_clock::now() - began);
      }
    });
    if (failed_) return *failed_;
    std::ranges::sort(night_.graded, {}, &report::Summary::submission);
    for (auto* all : {&night_.set_aside, &night_.waiting})
      std::ranges::sort(*all, {}, &report::SetAside::submission);
    return std::move(night_);
  }

  /// Stands for what the tables say of each submission that was graded.
  const std::map<std::string, std::string>& said() const { return said_; }

 private:
  bool goes_on() {
    const std::scoped_lock one_at_a_time(telling_);
    return !failed_;
  }

  void take(Result<Outcome> outcome, std::chrono::duration<double> took) {
    const std::scoped_lock one_at_a_time(telling_);
    if (failed_) return;
    if (!outcome) {
      failed_ = outcome.error();
      return;
    }
    ++done_;
    tell(*outcome, took);
    night_.unchanged += outcome->unchanged;
    if (outcome->graded) {
      said_.emplace(outcome->graded->submission, std::move(outcome->said));
      night_.graded.push_back(*std::move(outcome->graded));
    } else {
      (outcome->set_aside->waits ? night_.waiting : night_.set_aside)
          .push_back(*std::move(outcome->set_aside));
    }
  }

  void tell(const Outcome& outcome, std::chrono::duration<double> took) const {
    if (!means_.job.on_progress) return;
    means_.job.on_progress(
        {done_, locations_.size(),
         outcome.graded ? outcome.graded->submission : outcome.set_aside->submission,
         outcome.anew ? &*outcome.anew : nullptr, outcome.set_aside ? &*outcome.set_aside : nullptr,
         outcome.unchanged, took.count()});
  }

  const Means& means_;
  std::span<const intake::Location> locations_;
  unsigned workers_;
  std::vector<Stamp> stamps_;
  Night night_;  ///< in order of work until all is done
  std::map<std::string, std::string> said_;
  std::mutex telling_;
  std::size_t done_ = 0;
  std::optional<Error> failed_;
};

/// By which tables are known to say what they would say now.
std::string tables_hash(const Night& night, const std::map<std::string, std::string>& said,
                        const Means& means) {
  Digest digest;
  digest.add(means.basis.tables());
  for (const auto& [submission, hash] : said) digest.add(submission).add(hash);
  for (const auto* all : {&night.set_aside, &night.waiting}) {
    digest.add(all->size());
    for (const auto& one : *all) digest.add(one.submission).add(to_string(one.error));
  }
  return digest.hex();
}

/// Nothing is written when all would be as it is.
Result<Nothing> write_tables(const Night& night, const std::map<std::string, std::string>& said,
                             const Means& means) {
  const std::string hash = tables_hash(night, said, means);
  const auto known = means.ledger.tables();
  if (!known) return known.error();
  if (*known == hash && !means.job.redo && means.output.has_tables()) return Nothing{};
  auto done = means.ledger.set_tables("");
  if (done) done = means.output.write_tables(means.ledger.entries_of(night.graded), night);
  if (done) done = means.ledger.set_tables(hash);
  return done;
}

}  // namespace

std::filesystem::path history_file(const std::filesystem::path& out) {
  return out / "history.sqlite";
}

std::filesystem::path result_file(const std::filesystem::path& out, const std::string& submission) {
  return report_folder(out, submission) / report_files.back();
}

std::filesystem::path wide_table_file(const std::filesystem::path& out) {
  return out / "submissions.csv";
}

std::string_view version() { return RANGECHECK_VERSION; }

Result<Night> run(const Job& job) {
  auto found = find_all(job);
  if (!found) return found.error();
  auto& [taught, locations] = *found;
  const auto output = Output::open(job, taught.words);
  if (!output) return output.error();
  const auto alone = AtWork::in(job.out);
  if (!alone) return alone.error();
  output->remove_leftovers();
  auto store = history::Store::open(history_file(job.out));
  if (!store) return store.error();
  const auto naming = Naming::open(job, taught.roster, locations, *store);
  if (!naming) return naming.error();
  naming->sort(locations);
  const auto now = std::chrono::system_clock::now();
  const auto ledger =
      Ledger::open(*std::move(store), std::chrono::floor<std::chrono::seconds>(now));
  if (!ledger) return ledger.error();
  const Basis basis(job, taught);
  const Means means{job, taught, basis, *output, *naming, **ledger, now};
  Run all(means, locations);
  auto night = all.work_through_all();
  if (!night) return night;
  if (auto written = write_tables(*night, all.said(), means); !written) return written.error();
  return night;
}

}  // namespace rangecheck::inbox
