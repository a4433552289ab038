// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "history/store.hpp"

namespace rangecheck::history {

/// A value at one submission.
struct Reading {
  std::size_t submission = 0;  ///< index into Course::submissions
  double value_si = 0;         ///< of the grade: 0..1
  double standard_uncertainty_si = 0;
  grade::Verdict verdict = grade::Verdict::unsure;  ///< of a check
  grade::Band band = {};                            ///< of a check, as it was that time
};

/// Whether a difference is toward the band.
enum class Toward { band, away, neither };

/// The difference of two readings. Both were measured apart, so uncertainties add in squares
/// (JCGM 100:2008, 5.1.2). What the estimator gets wrong alike in both would cancel, and is not
/// taken off: the least detectable change is rather too large than too small.
struct Change {
  double by_si = 0;
  double standard_uncertainty_si = 0;
  /// Minimal detectable change at 95 %, 1.96 √(u₁² + u₂²): with equal uncertainties 1.96 √2 SEM as
  /// in Weir, J Strength Cond Res 19 (2005) 231–240, doi:10.1519/15184.1.
  double least_detectable_si = 0;
  Toward toward = Toward::neither;

  bool is_real() const;
};

/// `band` is what the later reading was held against.
Change change_between(const Reading& before, const Reading& after, const grade::Band& band);

/// One check from submission to submission.
struct Series {
  CheckRecord check;              ///< as last recorded
  std::vector<Reading> readings;  ///< of the submissions that showed it
  /// Against the reading before, and against the first where that is another. Only where the last
  /// submission showed it.
  std::optional<Change> since_last, since_first;
};

/// A student's submissions with one club and one kind of swing: what may be compared.
struct Course {
  std::string club, swing;
  std::vector<Dated> submissions;  ///< in order of time
  std::vector<Reading> grades;     ///< of those that have one
  std::optional<Change> grade_since_last;
  std::vector<Series> checks;  ///< those with any reading, in the order of the last submission
};

/// `submissions` in order of time; courses in order of their last submission, the latest first.
std::vector<Course> courses_of(std::span<const Dated> submissions);

/// The grades that can be compared with that of the last submission: of the same profile, and of
/// largely the same checks. None where the last has no grade.
std::vector<Reading> comparable_grades(const Course& course);
/// The change from the last but one of them.
std::optional<Change> comparable_grade_change(const Course& course);

/// The course of `last` with those of `earlier` that may be compared with it, all of one student
/// and in order of time. What its submissions' records say of checks is in Course::checks alone.
Course course_of(std::vector<Dated> earlier, Dated last);

}  // namespace rangecheck::history
