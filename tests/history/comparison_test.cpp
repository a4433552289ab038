// SPDX-License-Identifier: MIT
// Who is matched with whom, and what is counted where nothing can be compared.
#include "history/comparison.hpp"

#include <doctest/doctest.h>

#include "close.hpp"

namespace rangecheck::history {
namespace {

using grade::Verdict;

CheckRecord bend(std::optional<double> value_si, double u_si = 0,
                 Verdict verdict = Verdict::not_seen) {
  return {.id = "forward-bend",
          .title = "Forward bend",
          .position = Position::address,
          .dimension = Dimension::angle,
          .unit = "deg",
          .verdict = verdict,
          .value_si = value_si,
          .standard_uncertainty_si = u_si,
          .band = {}};
}

Record record(std::string submission, std::string student, std::vector<CheckRecord> checks,
              std::optional<double> percent = std::nullopt) {
  return {.submission = std::move(submission),
          .student = std::move(student),
          .received = "",
          .club = "",
          .swing = "",
          .profile = "",
          .version = "",
          .percent = percent,
          .percent_uncertainty = 2,
          .work_on = {},
          .checks = std::move(checks)};
}

TEST_CASE("comparison: pairs are of the same submission and check") {
  const Record first[] = {
      record("a", "x", {bend(0.5, 0.03, Verdict::inside)}, 80),
      record("b", "y", {bend(0.6, 0.03, Verdict::low)}, 70), record("c", "z", {bend(std::nullopt)}),
      record("d", "w", {bend(0.7, 0.03, Verdict::unsure)}, 60), record("gone", "v", {bend(0.1)})};
  const Record second[] = {record("d", "w", {bend(0.8, 0.03, Verdict::high)}, 66),
                           record("c", "z", {bend(0.4, 0.03, Verdict::low)}),
                           record("b", "y", {bend(0.7, 0.03, Verdict::inside)}, 73),
                           record("a", "x", {bend(0.55, 0.03, Verdict::inside)}, 80)};
  const Comparison both = compare(first, second);
  CHECK(both.in_both == 4);
  CHECK(both.students == 4);
  CHECK(both.only_first == std::vector<std::string>{"gone"});
  CHECK(both.only_second.empty());
  REQUIRE(both.checks.size() == 1);
  const auto& check = both.checks.front();
  REQUIRE(check.pairs.size() == 3);
  CHECK(check.first_only == 0);
  CHECK(check.second_only == 1);
  REQUIRE(check.differences);
  CHECK_CLOSE(check.differences->bias, (0.05 + 0.1 + 0.1) / 3, 1e-12);
  // 1.96 √2 0.03 is 0.083: 0.05 is within it, 0.1 is not.
  CHECK(check.honesty.stated == 3);
  CHECK(check.honesty.within == 1);
  CHECK(check.verdicts.total() == 2);
  CHECK(check.verdicts.same() == 1);
  CHECK(check.verdicts.both[1 * deciding_count + 0] == 1);  // low, then inside
  CHECK(check.verdicts.first_only == 0);
  CHECK(check.verdicts.second_only == 2);
  REQUIRE(both.grade);
  REQUIRE(both.grade->differences);
  CHECK_CLOSE(both.grade->differences->bias, 0.03, 1e-12);
}

TEST_CASE("comparison: what states no uncertainty is not asked whether it is honest") {
  const Record first[] = {record("a", "", {bend(0.5, 0.03)})};
  const Record second[] = {record("a", "x", {bend(0.5)})};
  const auto both = compare(first, second);
  CHECK(both.in_both == 1);
  CHECK(both.honesty.stated == 0);
  CHECK_FALSE(both.checks.front().differences);
}

TEST_CASE("comparison: an id with two students is two submissions") {
  const Record first[] = {record("a", "x", {bend(0.5)})};
  const Record second[] = {record("a", "y", {bend(0.5)})};
  const auto both = compare(first, second);
  CHECK(both.in_both == 0);
  CHECK(both.only_first == std::vector<std::string>{"a"});
  CHECK(both.only_second == std::vector<std::string>{"a"});
}

TEST_CASE("comparison: a student alone stands for the one submission there is, or for none") {
  const Record first[] = {record("a", "x", {bend(0.5)}), record("b", "y", {bend(0.6)}),
                          record("b-again", "y", {bend(0.6)})};
  const Record by_student[] = {record("", "x", {bend(0.4)}), record("", "y", {bend(0.4)}),
                               record("", "z", {bend(0.4)})};
  for (const bool turned : {false, true}) {
    const auto both = turned ? compare(by_student, first) : compare(first, by_student);
    CHECK(both.in_both == 1);
    CHECK(both.ambiguous == std::vector<std::string>{"y"});
    CHECK((turned ? both.only_first : both.only_second) == std::vector<std::string>{"z"});
    CHECK((turned ? both.only_second : both.only_first).empty());
  }
}

TEST_CASE("comparison: checks stand by position, from the ground up") {
  const auto named = [](std::string id, std::optional<Position> position) {
    CheckRecord check = bend(1);
    check.id = std::move(id);
    check.position = position;
    return check;
  };
  const std::vector<CheckRecord> mixed = {
      named("tempo-ratio", std::nullopt), named("top/shoulder-turn", Position::top),
      named("a-measure-of-mine", Position::address), named("forward-bend", Position::address),
      named("stance-width", Position::address)};
  const Record only[] = {record("a", "x", mixed)};
  std::vector<std::string> ids;
  for (const auto& check : compare(only, only).checks) ids.push_back(check.check.id);
  CHECK(ids == std::vector<std::string>{"stance-width", "forward-bend", "a-measure-of-mine",
                                        "top/shoulder-turn", "tempo-ratio"});
}

}  // namespace
}  // namespace rangecheck::history
