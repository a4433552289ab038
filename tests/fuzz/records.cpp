// SPDX-License-Identifier: MIT
// Records as they come through a pipe, and the submissions in them.
#include "fuzz.hpp"
#include "intake/record.hpp"
#include "intake/submission.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

Roster made_up_roster() {
  Golfer golfer;
  golfer.id = "s-1";
  golfer.stature = Length::metres(1.7);
  return {{golfer.id, golfer}};
}

void hold_submission(const Record& record) {
  static const Roster roster = made_up_roster();
  const auto submission = read_submission(record, roster, shipped_layouts());
  if (!submission) return fuzz::hold_error(submission.error(), "");
  fuzz::hold(submission->id == record.id, "a submission has the id of its record");
  fuzz::hold(submission->views.size() == 1 || submission->views.size() == 2, "one film or two");
}

void hold_record(const Record& record) {
  fuzz::hold(!why_unsafe(record.id), "a record's id is one");
  const auto line = record_line(record);
  if (!line) return fuzz::hold_error(line.error(), "");
  const auto again = read_record(*line, 1);
  fuzz::hold(again && *record_line(*again) == *line, "what is written is read as it was");
  hold_submission(record);
  for (const Record& earlier : record.earlier) {
    fuzz::hold(earlier.earlier.empty(), "earlier ones have none");
    hold_submission(earlier);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto record = read_record(fuzz::text_of(data, size), 7);
  if (record) {
    hold_record(*record);
    return 0;
  }
  const auto& [submission, error] = record.error();
  fuzz::hold(!submission.empty() && !error.what.empty(),
             "what is no record has a name and a reason");
  if (submission == "stdin:7" && error.where.file == "stdin") fuzz::hold_error(error, "stdin");
  return 0;
}
