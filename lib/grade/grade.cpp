// SPDX-License-Identifier: MIT
#include "grade/grade.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "grade/reading.hpp"
#include "grade/work_on.hpp"

namespace rangecheck::grade {
namespace {

/// What the films don't reach.
class NotFound {
 public:
  NotFound(std::span<const PositionNotFound> positions,
           std::span<const measure::Measurement> measured)
      : positions_(positions.begin(), positions.end()) {
    for (const Position later : all_positions)
      if (later != Position::address && !find(later) && !any_at(later, measured))
        positions_.push_back({later, {"reason.not-measured"}, {}});
  }

  bool has(Position position) const { return find(position) != nullptr; }

  /// The position for want of which `check` can't be seen, or nullptr.
  const PositionNotFound* reason_for(const Check& check) const {
    if (check.subject != Subject::measured) return nullptr;
    if (check.position) return find(*check.position);
    const auto* rule = measure::find_rule(check.rule);
    for (const measure::Moment moment : rule ? rule->moments : std::span<const measure::Moment>{})
      if (const auto* found = find(moment)) return found;
    return nullptr;
  }

 private:
  const PositionNotFound* find(Position position) const {
    const auto found = std::ranges::find(positions_, position, &PositionNotFound::position);
    return found == positions_.end() ? nullptr : &*found;
  }

  const PositionNotFound* find(measure::Moment moment) const {
    const auto number = static_cast<std::size_t>(moment);
    if (number < position_count) return find(all_positions[number]);
    // The greatest speeds are on the way down: between these two.
    const auto* top = find(Position::top);
    return top ? top : find(Position::impact);
  }

  static bool any_at(Position position, std::span<const measure::Measurement> measured) {
    return std::ranges::any_of(measured,
                               [position](const auto& one) { return one.position == position; });
  }

  std::vector<PositionNotFound> positions_;
};

/// Holds one check against what is known, and says so in its result.
class Judge {
 public:
  Judge(const Fitted& fitted, std::span<const measure::Measurement> measured,
        const intake::Submission& submission, const NotFound& not_found)
      : fitted_(fitted), measured_(measured), submission_(submission), not_found_(not_found) {}

  CheckResult operator()(const Check& check) const {
    CheckResult result;
    result.check = check;
    if (const auto off = fitted_.switched_off.find(check.id); off != fitted_.switched_off.end()) {
      // Of a position that no film shows nothing else is worth saying.
      const auto* absent = not_found_.reason_for(check);
      result.verdict = absent ? Verdict::not_seen : Verdict::switched_off;
      result.reason = absent ? absent->reason : as_written(off->second);
      result.remedy = absent ? absent->remedy : Message{};
      return result;
    }
    switch (check.subject) {
      case Subject::measured:
        judge_measured(result);
        break;
      case Subject::reading:
        judge_reading(result);
        break;
      case Subject::observed:
        judge_observed(result);
        break;
    }
    return result;
  }

 private:
  void judge_value(CheckResult& result, const Given& given) const {
    result.value_si = given.value_si;
    result.standard_uncertainty_si = given.standard_uncertainty_si;
    result.note = given.note;
    const Band& band = result.check.band;
    result.probability = conformance(given.value_si, given.standard_uncertainty_si, band);
    result.verdict = verdict(result.probability, fitted_.profile.confidence);
    result.score =
        trapezoid_score(given.value_si, given.standard_uncertainty_si, band, result.check.fade_si);
  }

  const measure::Measurement* measurement(const Check& check) const {
    const auto found = std::ranges::find_if(measured_, [&](const measure::Measurement& one) {
      return one.rule && one.rule->id == check.rule && one.position == check.position;
    });
    return found == measured_.end() ? nullptr : &*found;
  }

  void judge_measured(CheckResult& result) const {
    const auto* found = measurement(result.check);
    const auto* absent = not_found_.reason_for(result.check);
    const bool seen = found && !found->not_seen && found->value;
    if (seen) {
      judge_value(result, {*found->value, found->standard_uncertainty, {}});
    } else if (found && found->not_seen) {
      result.reason = found->not_seen->reason;
      result.remedy = found->not_seen->remedy;
    } else if (absent) {
      result.reason = absent->reason;
      result.remedy = absent->remedy;
    } else {
      result.reason = {"reason.not-measured"};
    }
    if (!seen) judge_by_eye(result);
    if (!result.value_si || !found) return;
    for (const auto& category : found->rule->categories)
      if (*result.value_si >= category.from_si) result.category = category.name;
  }

  /// Where no landmark shows a measure, a person's number is better than none.
  void judge_by_eye(CheckResult& result) const {
    const auto given = given_by_eye(submission_, result.check.id, result.check.dimension);
    if (!given) {
      // A slip in the coach's manifest, said as the error that it is.
      result.reason = {"reason.observed", {{"error", given.error().what}}};
      result.remedy = as_written(given.error().remedy);
    } else if (*given) {
      result.reason = result.remedy = {};
      judge_value(result, **given);
    }
  }

  void judge_reading(CheckResult& result) const {
    if (const auto given = given_reading(submission_, result.check.id)) {
      judge_value(result, *given);
      return;
    }
    const bool derived = result.check.id == "start-direction";
    result.reason = {derived ? "reason.needs-readings" : "reason.no-reading"};
    result.remedy = derived ? Message{"remedy.send-readings"}
                            : Message{"remedy.send-reading", {{"reading", result.check.id}}};
  }

  void judge_observed(CheckResult& result) const {
    const auto found = submission_.observed.find(result.check.id);
    if (found == submission_.observed.end()) {
      result.reason = {"reason.nobody-noted"};
      result.remedy = {"remedy.note",
                       {{"check", result.check.id},
                        {"words", fmt::format("{}", fmt::join(result.check.accept, ", "))}}};
      return;
    }
    result.word = found->second;
    const bool accepted =
        std::ranges::find(result.check.accept, kebab(found->second)) != result.check.accept.end();
    result.verdict = accepted ? Verdict::inside : Verdict::outside_words;
    result.probability = accepted ? Conformance{0, 1, 0} : Conformance{0, 0, 0};
    result.score = {accepted ? 1.0 : 0.0, 0};
  }

  const Fitted& fitted_;
  std::span<const measure::Measurement> measured_;
  const intake::Submission& submission_;
  const NotFound& not_found_;
};

/// Weighted mean of the scores that were seen, and how much was seen. Checks are taken as
/// independent: they share a posture, so the uncertainty is of the right size, not exact.
class Sum {
 public:
  void add(const CheckResult& result) {
    const double w = result.check.weight;
    any_ = true;
    weight_ += w;
    if (result.verdict == Verdict::not_seen) return;
    seen_ += w;
    score_ += w * result.score.expected;
    variance_ += w * w * result.score.standard_deviation * result.score.standard_deviation;
  }

  bool any() const { return any_; }
  double seen_share() const { return weight_ > 0 ? seen_ / weight_ : 0; }
  bool enough(double least_share) const { return seen_ > 0 && seen_share() >= least_share; }

  /// Fills what Grade and PositionGrade have in common.
  template <class Into>
  void put_into(Into& into, double least_share) const {
    into.seen_share = seen_share();
    if (!enough(least_share)) return;
    into.percent = 100 * score_ / seen_;
    into.percent_uncertainty = 100 * std::sqrt(variance_) / seen_;
  }

 private:
  bool any_ = false;
  double weight_ = 0, seen_ = 0, score_ = 0, variance_ = 0;
};

/// What counts toward a grade: not what is switched off, nor what the films can't show.
bool counts(const CheckResult& result, const NotFound& not_found) {
  if (result.verdict == Verdict::switched_off) return false;
  return result.verdict != Verdict::not_seen || !not_found.reason_for(result.check);
}

/// The grade of each position, and of the whole.
void sum_up(Grade& grade, const NotFound& not_found, double least_share) {
  // The last is of what has no position.
  std::array<Sum, position_count + 1> sums;
  for (const auto& result : grade.results)
    if (counts(result, not_found))
      sums[result.check.position ? index_of(*result.check.position) : position_count].add(result);
  Sum whole;
  const auto of_whole = [&](const CheckResult& result) {
    const auto position = result.check.position.value_or(Position::address);
    return position == Position::address || sums[index_of(position)].enough(least_share);
  };
  for (const auto& result : grade.results)
    if (counts(result, not_found) && of_whole(result)) whole.add(result);
  whole.put_into(grade, least_share);
  for (std::size_t i = 0; i < sums.size(); ++i) {
    PositionGrade one;
    if (i < position_count) one.position = all_positions[i];
    if (!sums[i].any() || (one.position && not_found.has(*one.position))) continue;
    sums[i].put_into(one, least_share);
    grade.positions.push_back(one);
  }
}

/// Words under `observed:` that no check of the profile asks for: most likely misspelt.
void note_unused(const intake::Submission& submission, Grade& grade) {
  std::vector<std::string_view> ids;
  for (const auto& result : grade.results) ids.push_back(result.check.id);
  for (const auto& [id, unused] : submission.observed) {
    if (std::ranges::find(ids, plain_id(id)) != ids.end()) continue;
    const std::string near = nearest(id, ids);
    const std::string written = rangecheck::quoted(id);
    grade.notes.push_back(near.empty()
                              ? Message{"notes.no-such-check", {{"id", written}}}
                              : Message{"notes.nearly-a-check", {{"id", written}, {"near", near}}});
  }
}

/// What was changed for this student, of the checks that the films could show.
std::vector<Change> changes_of(const Fitted& fitted, const NotFound& not_found) {
  std::vector<Change> changes;
  for (const auto& change : fitted.changes)
    if (!not_found.reason_for(change.check)) changes.push_back(change);
  return changes;
}

bool has_checks_at(const Profile& profile, Position position) {
  return std::ranges::any_of(profile.checks,
                             [&](const Check& check) { return check.position == position; });
}

}  // namespace

Grade grade(const Fitted& fitted, std::span<const measure::Measurement> measured,
            const intake::Submission& submission, std::span<const PositionNotFound> not_found) {
  const NotFound absent(not_found, measured);
  Grade grade;
  for (const auto& each : not_found)
    if (has_checks_at(fitted.profile, each.position)) grade.not_found.push_back(each);
  grade.profile_id = fitted.profile.id;
  grade.profile_title = fitted.profile.title;
  grade.changes = changes_of(fitted, absent);
  const Judge judge(fitted, measured, submission, absent);
  for (const auto& check : fitted.profile.checks) grade.results.push_back(judge(check));
  sum_up(grade, absent, fitted.profile.least_seen_share);
  // Too little seen for a grade is too little to send someone to work on: film again first.
  if (grade.percent) grade.work_on = choose_work(grade.results);
  note_unused(submission, grade);
  return grade;
}

}  // namespace rangecheck::grade
