// SPDX-License-Identifier: MIT
#include "grade/grade.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "grade/reading.hpp"
#include "grade/work_on.hpp"

namespace rangecheck::grade {
namespace {

/// Holds one check against what is known, and says so in its result.
class Judge {
 public:
  Judge(const Fitted& fitted, std::span<const measure::Measurement> measured,
        const intake::Submission& submission)
      : fitted_(fitted), measured_(measured), submission_(submission) {}

  CheckResult operator()(const Check& check) const {
    CheckResult result;
    result.check = check;
    const auto off = fitted_.switched_off.find(check.id);
    if (off != fitted_.switched_off.end()) {
      result.verdict = Verdict::switched_off;
      result.reason = off->second;
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

  void judge_measured(CheckResult& result) const {
    const auto found = std::ranges::find_if(measured_, [&](const measure::Measurement& one) {
      return one.rule && one.rule->id == result.check.id;
    });
    const bool seen = found != measured_.end() && !found->not_seen && found->value;
    if (seen) {
      judge_value(result, {*found->value, found->standard_uncertainty, ""});
    } else if (found != measured_.end() && found->not_seen) {
      result.reason = found->not_seen->reason;
      result.remedy = found->not_seen->remedy;
    } else {
      result.reason = "not measured";
    }
    if (!seen) judge_by_eye(result);
    if (!result.value_si || found == measured_.end()) return;
    for (const auto& category : found->rule->categories)
      if (*result.value_si >= category.from_si) result.category = category.name;
  }

  /// Where no landmark shows a measure, a person's number is better than none.
  void judge_by_eye(CheckResult& result) const {
    const auto given = given_by_eye(submission_, result.check.id, result.check.dimension);
    if (!given) {
      result.reason = "observed: " + given.error().what;
      result.remedy = given.error().remedy;
    } else if (*given) {
      result.reason = result.remedy = "";
      judge_value(result, **given);
    }
  }

  void judge_reading(CheckResult& result) const {
    if (const auto given = given_reading(submission_, result.check.id)) {
      judge_value(result, *given);
      return;
    }
    const bool derived = result.check.id == "start-direction";
    result.reason = derived ? "needs the readings of face and path" : "no reading was sent";
    result.remedy = derived ? "send face-to-target and club-path from a launch monitor"
                            : "send " + result.check.id + " from a launch monitor";
  }

  void judge_observed(CheckResult& result) const {
    const auto found = submission_.observed.find(result.check.id);
    if (found == submission_.observed.end()) {
      result.reason = "nobody noted it";
      result.remedy = "note " + result.check.id + " under observed, as one of: " +
                      fmt::format("{}", fmt::join(result.check.accept, ", ")) + ", or other words";
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
};

/// Weighted mean of the scores that were seen, and how much was seen. Checks are taken as
/// independent: they share a posture, so the uncertainty is of the right size, not exact.
void sum_up(Grade& grade, double least_seen_share) {
  double weight = 0, seen = 0, score = 0, variance = 0;
  for (const auto& result : grade.results) {
    if (result.verdict == Verdict::switched_off) continue;
    const double w = result.check.weight;
    weight += w;
    if (result.verdict == Verdict::not_seen) continue;
    seen += w;
    score += w * result.score.expected;
    variance += w * w * result.score.standard_deviation * result.score.standard_deviation;
  }
  grade.seen_share = weight > 0 ? seen / weight : 0;
  if (!(seen > 0) || grade.seen_share < least_seen_share) return;
  grade.percent = 100 * score / seen;
  grade.percent_uncertainty = 100 * std::sqrt(variance) / seen;
}

/// Words under `observed:` that no check of the profile asks for: most likely misspelt.
void note_unused(const intake::Submission& submission, Grade& grade) {
  std::vector<std::string_view> ids;
  for (const auto& result : grade.results) ids.push_back(result.check.id);
  for (const auto& [id, unused] : submission.observed) {
    if (std::ranges::find(ids, id) != ids.end()) continue;
    const std::string near = nearest(id, ids);
    grade.notes.push_back("observed " + rangecheck::quoted(id) + " is no check of this profile" +
                          (near.empty() ? "" : " (did you mean " + near + "?)"));
  }
}

}  // namespace

Grade grade(const Fitted& fitted, std::span<const measure::Measurement> measured,
            const intake::Submission& submission,
            std::span<const PositionNotFound> not_found) {
  Grade grade;
  grade.not_found.assign(not_found.begin(), not_found.end());
  grade.profile_id = fitted.profile.id;
  grade.profile_title = fitted.profile.title;
  grade.notes = fitted.notes;
  const Judge judge(fitted, measured, submission);
  for (const auto& check : fitted.profile.checks) grade.results.push_back(judge(check));
  sum_up(grade, fitted.profile.least_seen_share);
  // Too little seen for a grade is too little to send someone to work on: film again first.
  if (grade.percent) grade.work_on = choose_work(grade.results);
  note_unused(submission, grade);
  return grade;
}

}  // namespace rangecheck::grade
