// SPDX-License-Identifier: MIT
#include "inbox/work.hpp"

#include <algorithm>
#include <exception>

#include "base/digest.hpp"

namespace rangecheck::inbox {
namespace {

using history::Worked;

bool is_to_redo(const Job& job, const intake::Location& location) {
  return job.redo &&
         (job.redo->empty() || std::ranges::find(*job.redo, location.id) != job.redo->end());
}

/// What else than its files has changed of a submission that could be graded.
std::optional<Why> why_anew(const Worked& known, const Submitted& submitted, const Means& means) {
  const auto golfer = means.naming.student_called(known.student);
  if (!golfer || known.taught != means.basis.taught(known, *golfer)) return Why::taught;
  const std::string earlier = means.ledger.earlier(known.student, known.club, known.swing,
                                                   submitted.arrival, submitted.waits);
  if (known.shown != means.basis.shown(*golfer, earlier)) return Why::shown;
  if (!means.output.has_report(known.submission)) return Why::output;
  return std::nullopt;
}

/// Stands for what tables say of a submission that was graded.
std::string said_of(const Worked& worked) {
  return Digest().add(worked.inputs).add(worked.taught).add(worked.summary).hex();
}

/// What is known of a submission of which nothing has changed.
Result<Outcome> as_known(const Worked& known, const Submitted& submitted, const Means& means) {
  Outcome out{.unchanged = true};
  if (known.error) {
    out.set_aside = report::SetAside{known.submission, *known.error, known.student};
  } else {
    auto summary = report::unpacked_summary(known.summary);
    if (!summary) return summary.error();
    out.graded = *std::move(summary);
    out.said = said_of(known);
  }
  if (known.stamp != submitted.stamp.hash)
    if (auto kept = means.ledger.restamp(known.submission, submitted.stamp.hash); !kept)
      return kept.error();
  return out;
}

/// Whose a submission is: as the ledger knows while no file has changed, else as its files say.
std::optional<intake::Sender> sender_of(const intake::Location& location, const Stamp& stamp,
                                        const Means& means) {
  const auto known = means.ledger.known(means.naming.of_submission(location.id));
  if (known && !stamp.hash.empty() && known->stamp == stamp.hash) {
    if (known->student.empty()) return std::nullopt;
    if (auto student = means.naming.student_called(known->student))
      return intake::Sender{*std::move(student), known->received, known->club, known->swing};
  }
  auto sender = intake::read_sender(location);
  return sender ? std::optional(*std::move(sender)) : std::nullopt;
}

Outcome failed(const Submitted& submitted, const Means& means, Error why) {
  return {.set_aside = means.naming.rename(submitted.location, std::move(why))};
}

/// Notes what the grade hangs on.
void note(const report::Graded& graded, const intake::Golfer& golfer, const Submitted& submitted,
          const Means& means, Worked& worked) {
  worked.student = graded.student;
  worked.received = graded.received;
  worked.club = graded.club;
  worked.swing = graded.swing;
  worked.style = golfer.style;
  worked.limits = golfer.limits;
  worked.taught = means.basis.taught(worked, golfer.id);
  worked.shown =
      means.basis.shown(golfer.id, means.ledger.earlier(worked.student, worked.club, worked.swing,
                                                        submitted.arrival, submitted.waits));
}

/// Read, graded, written and kept, under the names that outputs use; or why it can't be graded.
Result<Outcome> grade_it(const Submitted& submitted, const Means& means, Worked& worked) {
  auto submission =
      intake::read_submission(submitted.location, means.taught.roster, means.taught.layouts);
  if (!submission) return failed(submitted, means, std::move(submission.error()));
  if (const auto renamed = means.naming.rename(*submission); !renamed) return renamed.error();
  auto graded = grade_one(*submission, means.taught.profiles);
  if (!graded) return failed(submitted, means, std::move(graded.error()));
  means.naming.rename(submitted.location, *graded);
  auto course = means.ledger.course_of(*graded, submitted.arrival, submitted.waits);
  if (!course) return course.error();
  graded->course = *std::move(course);
  note(*graded, submission->golfer, submitted, means, worked);
  auto entry = report::entry_of(*graded);
  worked.summary = report::packed(entry.summary);
  auto done = means.ledger.begin(worked.submission);
  if (done) done = means.output.write(*graded);
  if (done) done = means.ledger.keep(worked, *graded, entry);
  if (!done) return done.error();
  Outcome out{.graded = std::move(entry.summary), .said = said_of(worked)};
  out.anew = *std::move(graded);
  return out;
}

/// The same where a library throws.
Result<Outcome> grade_safely(const Submitted& submitted, const Means& means, Worked& worked) {
  try {
    return grade_it(submitted, means, worked);
  } catch (const std::exception& thrown) {
    return failed(submitted, means, not_worked_through(thrown));
  }
}

Result<Nothing> set_aside(const report::SetAside& why, const Submitted& submitted,
                          const Means& means, Worked worked) {
  auto done = means.ledger.begin(worked.submission);
  if (done) done = means.output.write(why);
  // A fault of this machine says nothing about the submission.
  if (!done || why.error.fault == Fault::io) return done;
  const auto sender = intake::read_sender(submitted.location);
  Worked failed{.submission = worked.submission,
                .student = why.student,
                .received = sender ? sender->received : "",
                .stamp = worked.stamp,
                .inputs = worked.inputs,
                .taught = means.basis.everything(),
                .error = why.error};
  return means.ledger.keep(std::move(failed));
}

}  // namespace

std::string inputs_of(const Submitted& submitted, const std::optional<Worked>& known) {
  const auto& [location, stamp, arrival, waits] = submitted;
  const bool untouched = known && !stamp.hash.empty() && known->stamp == stamp.hash;
  return untouched ? known->inputs : contents_hash(location);
}

std::optional<Why> why_due(const Submitted& submitted, const std::optional<Worked>& known,
                           const std::string& inputs, const Means& means) {
  if (is_to_redo(means.job, submitted.location)) return Why::asked_for;
  if (!known) return Why::new_here;
  if (inputs.empty() || known->inputs != inputs) return Why::files;
  if (!known->error) return why_anew(*known, submitted, means);
  if (known->taught != means.basis.everything()) return Why::taught;
  if (!means.output.has_set_aside(known->submission)) return Why::output;
  return std::nullopt;
}

bool may_be_half(const Stamp& stamp, const Error& error, const Means& means) {
  return error.fault != Fault::io && is_recent(stamp, means.job.settle, means.now);
}

Result<Outcome> work_through(const Submitted& submitted, const Means& means) {
  const auto& [location, stamp, arrival, waits] = submitted;
  const auto known = means.ledger.known(arrival.submission);
  Worked worked{
      .submission = arrival.submission, .stamp = stamp.hash, .inputs = inputs_of(submitted, known)};
  if (!why_due(submitted, known, worked.inputs, means)) return as_known(*known, submitted, means);
  auto out = grade_safely(submitted, means, worked);
  if (!out || out->graded) return out;
  report::SetAside& why = *out->set_aside;
  why.waits = may_be_half(stamp, why.error, means);
  if (why.waits) return out;
  if (auto done = set_aside(why, submitted, means, std::move(worked)); !done) return done.error();
  return out;
}

Result<std::vector<Queue>> queues_of(std::span<const intake::Location> locations,
                                     std::span<const Stamp> stamps, const Means& means) {
  std::vector<std::optional<intake::Sender>> senders;
  for (std::size_t i = 0; i < locations.size(); ++i)
    senders.push_back(sender_of(locations[i], stamps[i], means));
  return queues_of(locations, senders, means.naming, means.ledger.store(), means.ledger.now());
}

}  // namespace rangecheck::inbox
