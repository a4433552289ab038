// SPDX-License-Identifier: MIT
#include "history/comparison.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "base/coverage.hpp"

namespace rangecheck::history {
namespace {

/// What a submission is called: by its id, else by its student.
const std::string& name_of(const Record& record) {
  return record.submission.empty() ? record.student : record.submission;
}

bool may_be_same(const Record& one, const Record& other) {
  if (!one.submission.empty() && !other.submission.empty() && one.submission != other.submission)
    return false;
  return one.student.empty() || other.student.empty()
             ? !one.submission.empty() && one.submission == other.submission
             : one.student == other.student;
}

/// Finds what on the other side may be the same submission.
class Side {
 public:
  explicit Side(std::span<const Record> records) {
    for (const auto& record : records) {
      by_submission_[record.submission].push_back(&record);
      by_student_[record.student].push_back(&record);
    }
  }
  std::vector<const Record*> same_as(const Record& record) const {
    std::set<const Record*> found;
    const auto take = [&](const auto& index, const std::string& key) {
      if (const auto all = index.find(key); all != index.end())
        for (const auto* each : all->second)
          if (may_be_same(*each, record)) found.insert(each);
    };
    if (!record.submission.empty()) take(by_submission_, record.submission);
    if (!record.student.empty()) take(by_student_, record.student);
    return {found.begin(), found.end()};
  }

 private:
  std::map<std::string, std::vector<const Record*>> by_submission_, by_student_;
};

/// A submission in both.
struct Match {
  const Record* first;
  const Record* second;
  const std::string& student() const {
    return first->student.empty() ? second->student : first->student;
  }
};

std::vector<Match> match(std::span<const Record> first, std::span<const Record> second,
                         Comparison& out) {
  const Side ones(first), others(second);
  std::vector<Match> matches;
  std::set<std::string> ambiguous;
  for (const auto& record : first) {
    const auto same = others.same_as(record);
    if (same.empty()) {
      out.only_first.push_back(name_of(record));
    } else if (same.size() > 1 || ones.same_as(*same.front()).size() > 1) {
      ambiguous.insert(record.student);
    } else {
      matches.push_back({&record, same.front()});
    }
  }
  for (const auto& record : second)
    if (ones.same_as(record).empty()) out.only_second.push_back(name_of(record));
  std::ranges::sort(out.only_first);
  std::ranges::sort(out.only_second);
  out.ambiguous.assign(ambiguous.begin(), ambiguous.end());
  return matches;
}

std::optional<std::size_t> decided(const CheckRecord* check) {
  if (!check) return std::nullopt;
  const auto found = std::ranges::find(deciding_verdicts, check->verdict);
  if (found == deciding_verdicts.end()) return std::nullopt;
  return static_cast<std::size_t>(found - deciding_verdicts.begin());
}

void add_verdicts(Verdicts& verdicts, const CheckRecord* first, const CheckRecord* second) {
  const auto row = decided(first), column = decided(second);
  if (row && column) ++verdicts.both[*row * deciding_count + *column];
  verdicts.first_only += row && !column;
  verdicts.second_only += column && !row;
}

/// How many there are; nothing where one of them is not known.
std::optional<std::size_t> count_of(const std::set<std::string>& students) {
  return students.contains("") ? std::nullopt : std::optional(students.size());
}

/// A check's pairs while they are gathered.
struct Gathered {
  CheckComparison comparison;
  std::set<std::string> students;

  void add(const Match& match, const CheckRecord* first, const CheckRecord* second) {
    const bool has_first = first && first->value_si, has_second = second && second->value_si;
    comparison.first_only += has_first && !has_second;
    comparison.second_only += has_second && !has_first;
    if (!has_first || !has_second) return;
    comparison.pairs.push_back({*first->value_si, *second->value_si});
    students.insert(match.student());
    const double u1 = first->standard_uncertainty_si, u2 = second->standard_uncertainty_si;
    // 0 is what a record without an uncertainty has.
    if (u1 <= 0 || u2 <= 0) return;
    ++comparison.honesty.stated;
    comparison.honesty.within +=
        std::abs(*second->value_si - *first->value_si) <= coverage_factor_95 * std::hypot(u1, u2);
  }

  CheckComparison finished() {
    comparison.students = count_of(students);
    comparison.differences = differences_of(comparison.pairs);
    if (comparison.differences) {
      const MeanSquares squares = mean_squares_of(comparison.pairs);
      comparison.icc = icc_2_1(squares);
      comparison.standard_error_of_measurement_si = standard_error_of_measurement(squares);
      comparison.trend = trend_of(comparison.pairs);
    }
    return std::move(comparison);
  }
};

/// The grade as a check of its own, nothing where there is none.
std::optional<CheckRecord> grade_check(const Record& record) {
  if (!record.percent) return std::nullopt;
  return CheckRecord{.id = "grade",
                     .title = "Grade",
                     .position = std::nullopt,
                     .dimension = Dimension::ratio,
                     .unit = "%",
                     .verdict = grade::Verdict::unsure,
                     .value_si = *record.percent / 100,
                     .standard_uncertainty_si = record.percent_uncertainty / 100,
                     .band = {}};
}

const CheckRecord* address_of(const std::optional<CheckRecord>& check) {
  return check ? &*check : nullptr;
}

std::optional<CheckComparison> grades_of(std::span<const Match> matches) {
  Gathered gathered;
  for (const auto& match : matches) {
    const auto first = grade_check(*match.first), second = grade_check(*match.second);
    if (first) gathered.comparison.check = *first;
    gathered.add(match, address_of(first), address_of(second));
  }
  if (gathered.comparison.pairs.empty()) return std::nullopt;
  return gathered.finished();
}

using ByCheck = std::map<std::string, std::pair<const CheckRecord*, const CheckRecord*>>;

ByCheck checks_of(const Match& match) {
  ByCheck checks;
  for (const auto& check : match.first->checks) checks[check.id].first = &check;
  for (const auto& check : match.second->checks) checks[check.id].second = &check;
  return checks;
}

}  // namespace

std::size_t Verdicts::total() const {
  return std::accumulate(both.begin(), both.end(), std::size_t{0});
}

std::size_t Verdicts::same() const {
  std::size_t count = 0;
  for (std::size_t i = 0; i < deciding_count; ++i) count += both[i * deciding_count + i];
  return count;
}

Verdicts& Verdicts::operator+=(const Verdicts& other) {
  for (std::size_t i = 0; i < both.size(); ++i) both[i] += other.both[i];
  first_only += other.first_only;
  second_only += other.second_only;
  return *this;
}

Honesty& Honesty::operator+=(const Honesty& other) {
  stated += other.stated;
  within += other.within;
  return *this;
}

Comparison compare(std::span<const Record> first, std::span<const Record> second) {
  Comparison out{.first_submissions = first.size(),

                 .second_submissions = second.size(),
                 .students = {},
                 .only_first = {},
                 .only_second = {},
                 .ambiguous = {},
                 .grade = {},
                 .checks = {},
                 .verdicts = {},
                 .honesty = {}};
  const auto matches = match(first, second, out);
  out.in_both = matches.size();
  std::set<std::string> students;
  std::map<std::string, Gathered> gathered;
  for (const auto& match : matches) {
    students.insert(match.student());
    for (const auto& [id, both] : checks_of(match)) {
      const auto& [one, other] = both;
      Gathered& check = gathered[id];
      if (check.comparison.check.id.empty()) check.comparison.check = one ? *one : *other;
      check.add(match, one, other);
      add_verdicts(check.comparison.verdicts, one, other);
    }
  }
  out.students = count_of(students);
  out.grade = grades_of(matches);
  std::map<measure::InOrder, CheckComparison> in_order;
  for (auto& [id, check] : gathered) {
    auto place = measure::place_in_order(id, check.comparison.check.position);
    in_order.emplace(std::move(place), check.finished());
  }
  for (auto& [place, check] : in_order) {
    out.verdicts += check.verdicts;
    out.honesty += check.honesty;
    out.checks.push_back(std::move(check));
  }
  return out;
}

}  // namespace rangecheck::history
