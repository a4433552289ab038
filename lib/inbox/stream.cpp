// SPDX-License-Identifier: MIT
#include "inbox/stream.hpp"

#include <chrono>
#include <condition_variable>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "base/instant.hpp"
#include "inbox/given.hpp"
#include "inbox/inbox.hpp"
#include "inbox/lines.hpp"
#include "inbox/recorded.hpp"
#include "intake/record.hpp"

namespace rangecheck::inbox {
namespace {

using Outcome = Result<report::Graded, report::SetAside>;

Result<report::Graded> grade_alone(const intake::Record& record, const Taught& taught) {
  const auto submission = intake::read_submission(record, taught.roster, taught.layouts);
  if (!submission) return submission.error();
  return grade_one(*submission, taught.profiles);
}

/// With the student's course up to this one, as an inbox that held all of them would have it.
Result<report::Graded> grade_in_course(const intake::Record& record, const Taught& taught,
                                       std::chrono::sys_seconds now) {
  auto graded = grade_alone(record, taught);
  if (!graded) return graded;
  std::vector<history::Dated> earlier;
  for (const auto& each : record.earlier) {
    const auto before = grade_alone(each, taught);
    if (!before) continue;  // set aside in its own place
    if (before->student != graded->student)
      return Error{Fault::bad_value,
                   "has an earlier submission of another student in its record",
                   {.file = each.id, .line = {}, .frame = {}, .key = {}},
                   "pack the inbox again"};
    earlier.push_back({record_of(*before), now});
  }
  const auto at = parse_instant(graded->received).value_or(now);
  graded->course = history::course_of(std::move(earlier), {record_of(*graded), at});
  return graded;
}

/// The workers' common end of both pipes. Whoever is free reads the next line itself, so that no
/// record waits in memory; results wait for those before them, a window of them at most.
class Stream {
 public:
  Stream(const Taught& taught, int input, std::size_t window,
         const std::function<bool(const Streamed&)>& take)
      : taught_(taught), lines_(input, intake::longest_record), window_(window), take_(take) {}

  /// Takes lines until there are no more, or until something is wrong with more than a record.
  void work() {
    try {
      while (auto turn = next()) {
        const auto began = std::chrono::steady_clock::now();
        auto outcome = outcome_of(turn->line);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
        give(turn->number, {std::move(outcome), took.count()});
      }
    } catch (const std::exception& thrown) {
      const std::scoped_lock state(state_);
      failed_ = Error{Fault::io, thrown.what(), {}, ""};
      ended_ = true;
      room_.notify_all();
    }
  }

  Result<Nothing> end() {
    if (failed_) return *std::move(failed_);
    return Nothing{};
  }

 private:
  struct Turn {
    std::size_t number;  ///< of the line among those with anything on them, from 0
    Line line;
  };

  std::optional<Turn> next() {
    const std::scoped_lock one_reads(reading_);
    {
      std::unique_lock state(state_);
      room_.wait(state, [&] { return ended_ || turns_ - given_ < window_; });
      if (ended_) return std::nullopt;
    }
    auto line = lines_.next();
    const std::scoped_lock state(state_);
    if (!line) failed_ = std::move(line.error());
    if (!line || !*line) ended_ = true;
    if (ended_) return std::nullopt;
    return Turn{turns_++, **std::move(line)};
  }

  Outcome outcome_of(Line& line) const {
    std::string id = "stdin:" + std::to_string(line.number);
    try {
      auto record =
          line.too_long
              ? Result<intake::Record, intake::NoRecord>(intake::too_long_record(line.number))
              : intake::read_record(line.text, line.number);
      if (!record)
        return report::SetAside{std::move(record.error().submission),
                                std::move(record.error().error)};
      std::string().swap(line.text);
      id = record->id;
      auto graded = grade_in_course(*record, taught_, now_);
      if (graded) return *std::move(graded);
      return report::SetAside{std::move(id), std::move(graded.error())};
    } catch (const std::exception& thrown) {
      return report::SetAside{std::move(id), not_worked_through(thrown)};
    }
  }

  void give(std::size_t number, Streamed streamed) {
    const std::scoped_lock state(state_);
    waiting_.emplace(number, std::move(streamed));
    while (!taken_no_more_ && !waiting_.empty() && waiting_.begin()->first == given_) {
      taken_no_more_ = !take_(waiting_.begin()->second);
      waiting_.erase(waiting_.begin());
      ++given_;
    }
    ended_ = ended_ || taken_no_more_;
    room_.notify_all();
  }

  const Taught& taught_;
  const std::chrono::sys_seconds now_ =
      std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  std::mutex reading_;
  Lines lines_;  ///< under `reading_`; all below under `state_`
  std::mutex state_;
  std::condition_variable room_;
  std::size_t window_, turns_ = 0, given_ = 0;
  std::map<std::size_t, Streamed> waiting_;
  const std::function<bool(const Streamed&)>& take_;
  bool ended_ = false, taken_no_more_ = false;
  std::optional<Error> failed_;
};

}  // namespace

Result<Nothing> stream(const StreamJob& job, int input,
                       const std::function<bool(const Streamed&)>& take) {
  const auto taught = read_taught(job.profiles, job.roster);
  if (!taught) return taught.error();
  const unsigned workers = workers_meant(job.workers);
  constexpr std::size_t waiting_a_worker = 4;
  Stream stream(*taught, input, workers * waiting_a_worker, take);
  {
    std::vector<std::jthread> others;
    for (unsigned i = 1; i < workers; ++i) others.emplace_back([&] { stream.work(); });
    stream.work();
  }
  return stream.end();
}

}  // namespace rangecheck::inbox
