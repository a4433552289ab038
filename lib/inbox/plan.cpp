// SPDX-License-Identifier: MIT
#include "inbox/plan.hpp"

#include <algorithm>
#include <set>
#include <system_error>

#include "inbox/found.hpp"
#include "inbox/work.hpp"

namespace rangecheck::inbox {
namespace {

/// A queue's submissions that are worked through change what later ones with the same club and
/// swing say of earlier ones.
class QueuePlan {
 public:
  explicit QueuePlan(const Means& means) : means_(means) {}

  Planned of(const Submitted& submitted) {
    const auto known = means_.ledger.known(submitted.arrival.submission);
    Planned out{.submission = submitted.arrival.submission,
                .why = why_due(submitted, known, inputs_of(submitted, known), means_)};
    if (!out.why && known && touched_.contains({known->club, known->swing})) out.why = Why::shown;
    if (out.why) read(submitted, out);
    return out;
  }

 private:
  void read(const Submitted& submitted, Planned& out) {
    const auto& taught = means_.taught;
    const auto submission =
        intake::read_submission(submitted.location, taught.roster, taught.layouts);
    if (submission) {
      touched_.emplace(submission->club, submission->swing);
      return;
    }
    out.error = submission.error();
    out.waits = may_be_half(submitted.stamp, *out.error, means_);
  }

  const Means& means_;
  std::set<std::pair<std::string, std::string>> touched_;  ///< clubs and swings
};

}  // namespace

std::string_view told(Why why) {
  switch (why) {
    case Why::asked_for:
      return "asked for";
    case Why::new_here:
      return "new";
    case Why::files:
      return "its files have changed";
    case Why::taught:
      return "what it is held against has changed";
    case Why::shown:
      return "what its pages show has changed";
    case Why::output:
      return "its report is missing";
  }
  return "";
}

Result<std::vector<Planned>> plan(const Job& job) {
  if (job.pseudonyms)
    return Error{Fault::bad_value,
                 "new submissions have no pseudonyms before a run has written them into the key",
                 {},
                 "run it, or leave --pseudonyms out and name another folder"};
  auto found = find_all(job);
  if (!found) return found.error();
  auto& [taught, locations] = *found;
  const Output output = Output::as_it_is(job);
  std::error_code failed;
  auto store = std::filesystem::exists(history_file(job.out), failed)
                   ? history::Store::open(history_file(job.out))
                   : history::Store::in_memory();
  if (!store) return store.error();
  const auto naming = Naming::open(job, taught.roster, locations, *store);
  if (!naming) return naming.error();
  const auto now = std::chrono::system_clock::now();
  const auto ledger =
      Ledger::open(*std::move(store), std::chrono::floor<std::chrono::seconds>(now));
  if (!ledger) return ledger.error();
  const Basis basis(job, taught);
  const Means means{job, taught, basis, output, *naming, **ledger, now};
  const auto stamps = stamps_of(locations, workers_meant(job.workers));
  const auto queues = queues_of(locations, stamps, means);
  if (!queues) return queues.error();
  const Order order(*queues);
  std::vector<Planned> all;
  for (std::size_t queue = 0; queue < queues->size(); ++queue) {
    QueuePlan theirs(means);
    for (std::size_t place = 0; place < (*queues)[queue].size(); ++place) {
      const auto& [i, arrival] = (*queues)[queue][place];
      all.push_back(theirs.of({locations[i], stamps[i], arrival, order.waits(queue, place)}));
    }
  }
  std::ranges::sort(all, {}, &Planned::submission);
  return all;
}

}  // namespace rangecheck::inbox
