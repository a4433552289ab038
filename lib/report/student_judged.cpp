// SPDX-License-Identifier: MIT
// What was changed for the student's body.
#include <algorithm>

#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::Change;

/// The changes made for one reason, in their order.
using Group = std::vector<const Change*>;

std::vector<Group> by_reason(const std::vector<Change>& changes) {
  std::vector<Group> groups;
  for (const auto& change : changes) {
    const auto same = std::ranges::find_if(groups, [&](const Group& group) {
      return group.front()->whose == change.whose && group.front()->because == change.because;
    });
    if (same == groups.end())
      groups.push_back({&change});
    else
      same->push_back(&change);
  }
  return groups;
}

std::string moved_text(const Page& page, const Change& change) {
  const bool swing = shows_swing(page.graded);
  const Unit& unit = shown_unit(change.check, page.length_unit);
  const std::string title = in_sentence(page.words, title_of(page, change.check));
  return page.words.say("notes.moved",
                        {{"title", swing ? titled_at(title, change.check.position) : title},
                         {"wanted", wanted_text(page, change.check)},
                         {"before", band_text(page.words, *change.from, unit)}});
}

/// "lead knee flexion 7 to 22 deg instead of 15 to 27 deg; left out: hip line"
std::string changes_text(const Page& page, const Group& group) {
  const std::string joint = page.words.say("notes.changes-joint");
  std::string text;
  std::vector<Named> left_out;
  for (const Change* change : group) {
    if (!change->from) {
      left_out.push_back({in_sentence(page.words, title_of(page, change->check)),
                          told_at(change->check.position, shows_swing(page.graded))});
      continue;
    }
    if (!text.empty()) text += joint;
    text += moved_text(page, *change);
  }
  if (left_out.empty()) return text;
  if (!text.empty()) text += joint;
  return text +
         page.words.say(
             "notes.left-out",
             {{"names", named_text(page.words, left_out, page.words.say("unseen.parts-joint"))}});
}

}  // namespace

std::vector<JudgedNote> judged_notes(const Page& page) {
  std::vector<JudgedNote> notes;
  for (const auto& group : by_reason(page.graded.grade.changes)) {
    const Change& first = *group.front();
    notes.push_back({.limit = page.words.tell(first.limit),
                     .because = page.words.tell(first.because),
                     .changes = changes_text(page, group)});
  }
  return notes;
}

}  // namespace rangecheck::report
