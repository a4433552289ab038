// SPDX-License-Identifier: MIT
#include "inbox/work.hpp"

#include <algorithm>
#include <exception>

namespace rangecheck::inbox {
namespace {

using history::Worked;

bool is_to_redo(const Job& job, const intake::Location& location) {
  return job.redo &&
         (job.redo->empty() || std::ranges::find(*job.redo, location.id) != job.redo->end());
}

/// Whether all that the submission hangs on but its files is as it was, and what was written is
/// there.
bool is_as_it_was(const Worked& known, const Submitted& submitted, const Means& means) {
  if (known.error)
    return known.taught == means.basis.everything() && means.output.has_set_aside(known.submission);
  const auto golfer = means.naming.student_called(known.student);
  if (!golfer || !means.output.has_report(known.submission)) return false;
  if (known.taught != means.basis.taught(known, *golfer)) return false;
  const std::string earlier = means.ledger.earlier(known.student, known.club, known.swing,
                                                   submitted.arrival, submitted.waits);
  return known.shown == means.basis.shown(*golfer, earlier);
}

/// What is known of a submission of which nothing has changed; nothing when it has to be worked
/// through.
Result<std::optional<Outcome>> as_known(const Worked& known, const Submitted& submitted,
                                        const Means& means) {
  if (!is_as_it_was(known, submitted, means)) return std::optional<Outcome>();
  Outcome out{.unchanged = true};
  if (known.error) {
    out.set_aside = report::SetAside{known.submission, *known.error, known.student};
  } else {
    auto summary = report::unpacked_summary(known.summary);
    if (!summary) return summary.error();
    out.graded = *std::move(summary);
  }
  if (known.stamp != submitted.stamp.hash)
    if (auto kept = means.ledger.restamp(known.submission, submitted.stamp.hash); !kept)
      return kept.error();
  return std::optional(std::move(out));
}

/// Read and graded, under the names that outputs use. `worked` is told what it hangs on.
Result<report::Graded> grade_it(const Submitted& submitted, const Means& means, Worked& worked) {
  auto submission =
      intake::read_submission(submitted.location, means.taught.roster, means.taught.layouts);
  if (!submission) return submission.error();
  if (const auto renamed = means.naming.rename(*submission); !renamed) return renamed.error();
  auto graded = grade_one(*submission, means.taught.profiles);
  if (!graded) return graded;
  means.naming.rename(submitted.location, *graded);
  auto course = means.ledger.course_of(*graded, submitted.arrival, submitted.waits);
  if (!course) return course.error();
  graded->course = *std::move(course);
  const intake::Golfer& golfer = submission->golfer;
  worked.student = graded->student;
  worked.received = graded->received;
  worked.club = graded->club;
  worked.swing = graded->swing;
  worked.style = golfer.style;
  worked.limits = golfer.limits;
  worked.taught = means.basis.taught(worked, golfer.id);
  worked.shown =
      means.basis.shown(golfer.id, means.ledger.earlier(worked.student, worked.club, worked.swing,
                                                        submitted.arrival, submitted.waits));
  return graded;
}

/// The same, written and kept.
Result<report::Graded> grade_and_write(const Submitted& submitted, const Means& means,
                                       Worked& worked) {
  try {
    auto graded = grade_it(submitted, means, worked);
    if (!graded) return graded;
    auto done = means.ledger.begin(worked.submission);
    if (done) done = means.output.write(*graded);
    if (done) done = means.ledger.keep(worked, *graded);
    if (!done) return done.error();
    return graded;
  } catch (const std::exception& thrown) {
    // As a fault of this machine, since it may be one: the next run tries again.
    return Error{Fault::io,
                 std::string("could not be worked through: ") + thrown.what(),
                 {},
                 "please report this, with the submission"};
  }
}

Result<Nothing> set_aside(const report::SetAside& why, const Submitted& submitted,
                          const Means& means, Worked worked) {
  auto done = means.ledger.begin(worked.submission);
  if (done) done = means.output.write(why);
  // A fault of the disk says nothing about the submission.
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

Result<Outcome> work_through(const Submitted& submitted, const Means& means) {
  const auto& [location, stamp, arrival, waits] = submitted;
  const auto known = means.ledger.known(arrival.submission);
  const bool untouched = known && !stamp.hash.empty() && known->stamp == stamp.hash;
  Worked worked{.submission = arrival.submission,
                .stamp = stamp.hash,
                .inputs = untouched ? known->inputs : contents_hash(location)};
  const bool same = known && !worked.inputs.empty() && known->inputs == worked.inputs;
  if (same && !is_to_redo(means.job, location)) {
    auto as_it_was = as_known(*known, submitted, means);
    if (!as_it_was) return as_it_was.error();
    if (*as_it_was) return **std::move(as_it_was);
  }
  auto graded = grade_and_write(submitted, means, worked);
  if (graded) {
    Outcome out{.graded = report::entry_of(*graded).summary};
    out.anew = *std::move(graded);
    return out;
  }
  Outcome out{.set_aside = means.naming.rename(location, std::move(graded.error()))};
  out.set_aside->waits =
      out.set_aside->error.fault != Fault::io && is_recent(stamp, means.job.settle, means.now);
  if (out.set_aside->waits) return out;
  if (auto done = set_aside(*out.set_aside, submitted, means, std::move(worked)); !done)
    return done.error();
  return out;
}

std::optional<intake::Sender> sender_of(const intake::Location& location, const Stamp& stamp,
                                        const Naming& naming, const Ledger& ledger) {
  const auto known = ledger.known(naming.of_submission(location.id));
  if (known && !stamp.hash.empty() && known->stamp == stamp.hash) {
    if (known->student.empty()) return std::nullopt;
    if (auto student = naming.student_called(known->student))
      return intake::Sender{*std::move(student), known->received};
  }
  auto sender = intake::read_sender(location);
  return sender ? std::optional(*std::move(sender)) : std::nullopt;
}

}  // namespace rangecheck::inbox
