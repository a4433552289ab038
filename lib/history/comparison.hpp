// SPDX-License-Identifier: MIT
// Two gradings of the same submissions, or a grading and a person's readings, check by check.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "history/agreement.hpp"
#include "history/record.hpp"

namespace rangecheck::history {

/// Verdicts that say something, in the order of the tables' rows and columns.
inline constexpr std::array deciding_verdicts = {grade::Verdict::inside, grade::Verdict::low,
                                                 grade::Verdict::high,
                                                 grade::Verdict::outside_words};
inline constexpr std::size_t deciding_count = deciding_verdicts.size();

/// What both said of the same checks.
struct Verdicts {
  /// Where both decided: the first's verdict is the row, the second's the column.
  std::array<std::size_t, deciding_count* deciding_count> both = {};
  std::size_t first_only = 0, second_only = 0;  ///< only this one decided

  std::size_t total() const;  ///< of `both`
  std::size_t same() const;
  Verdicts& operator+=(const Verdicts& other);
};

/// How many differences are as small as the two stated uncertainties allow, 1.96 √(u₁² + u₂²).
struct Honesty {
  std::size_t stated = 0;  ///< pairs of which both have an uncertainty
  std::size_t within = 0;

  Honesty& operator+=(const Honesty& other);
};

/// One check in both. Numbers are SI.
struct CheckComparison {
  CheckRecord check;  ///< its names, dimension and unit; of the grade, id "grade" and no position
  std::vector<Pair> pairs;
  std::optional<std::size_t> students;          ///< whom the pairs are of, where all say it
  std::size_t first_only = 0, second_only = 0;  ///< submissions where only this one has a value
  std::optional<Differences> differences;       ///< nothing below `least_pairs`, nor the next three
  std::optional<Icc> icc;
  std::optional<double> standard_error_of_measurement_si;
  std::optional<Trend> trend;
  Verdicts verdicts;
  Honesty honesty;
};

/// Everything that two say of the same submissions.
struct Comparison {
  std::size_t first_submissions = 0, second_submissions = 0, in_both = 0;
  std::optional<std::size_t> students;               ///< of those in both, where all say it
  std::vector<std::string> only_first, only_second;  ///< ids, in order
  std::vector<std::string> ambiguous;                ///< students, in neither list
  std::optional<CheckComparison> grade;              ///< where any submission has one in both
  std::vector<CheckComparison> checks;  ///< by position, from the ground up; values or verdicts
  Verdicts verdicts;                    ///< of all checks
  Honesty honesty;
};

/// Matches submissions by id and checks by theirs. A record without a submission's id stands for
/// the only submission that its student has on the other side; where there are several it is left
/// out as ambiguous. The same id with two students is two submissions.
Comparison compare(std::span<const Record> first, std::span<const Record> second);

}  // namespace rangecheck::history
