// SPDX-License-Identifier: MIT
#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/coverage.hpp"
#include "base/text.hpp"
#include "grade/surely_below.hpp"
#include "report/for_scripts.hpp"
#include "report/html.hpp"
#include "report/json_parts.hpp"

namespace rangecheck::report {
namespace {

// Elements of HTML that have an end tag, and their escapes, are XML's too.
using html::element;
using html::Markup;

constexpr std::string_view suite = "rangecheck.grade";

enum class Outcome { passed, failed, error, skipped };

/// A case of the suite.
struct Case {
  std::string submission;
  Outcome outcome = Outcome::passed;
  Markup why = {};  ///< of those that did not pass
};

Case skipped(const std::string& submission, const std::string& why) {
  return {submission, Outcome::skipped, element("skipped", {{"message", why}}, "")};
}

Case case_of(const Summary& graded, const RunFacts& facts) {
  if (!graded.percent)
    return skipped(graded.submission,
                   fmt::format("no grade: {:.0f} % of what counts was seen; film again",
                               100 * graded.seen_share));
  const auto& limit = facts.fail_below_percent;
  if (!limit || !grade::surely_below(graded.percent, graded.percent_uncertainty, *limit))
    return {graded.submission};
  return {
      graded.submission, Outcome::failed,
      element("failure", {{"message", below_text(graded, *limit)}, {"type", "fail-below"}}, "")};
}

Case case_of(const std::string& submission, const Error& error) {
  return {submission, Outcome::error,
          element("error",
                  {{"message", printable(to_string(error))},
                   {"type", std::string(name_of(error.fault))}},
                  "")};
}

/// Decimals by the schema; the same digits whatever the locale.
std::string seconds(double value) { return fmt::format("{:.3f}", value); }

Markup written(const Case& one, const RunFacts& facts) {
  const auto took = facts.took_each_s.find(one.submission);
  return element("testcase",
                 {{"name", printable(one.submission)},
                  {"classname", std::string(suite)},
                  {"time", seconds(took == facts.took_each_s.end() ? 0 : took->second)}},
                 one.why);
}

std::string document(const std::vector<Case>& cases, const RunFacts& facts) {
  const auto count = [&](Outcome outcome) {
    return std::to_string(std::ranges::count(cases, outcome, &Case::outcome));
  };
  // Ant's schema asks for properties, system-out and system-err, also empty ones.
  Markup inside = element("properties", {}, "");
  for (const auto& one : cases) inside += written(one, facts);
  inside += element("system-out", {}, "") + element("system-err", {}, "");
  const Markup all = element(
      "testsuites", {},
      element("testsuite",
              {{"name", std::string(suite)},
               {"package", std::string(suite)},
               {"id", "0"},
               {"timestamp", fmt::format("{:%Y-%m-%dT%H:%M:%S}",
                                         fmt::gmtime(std::chrono::system_clock::to_time_t(
                                             std::chrono::system_clock::time_point(facts.began))))},
               {"hostname", "localhost"},  // the machine's name is nobody's business
               {"tests", std::to_string(cases.size())},
               {"failures", count(Outcome::failed)},
               {"errors", count(Outcome::error)},
               {"skipped", count(Outcome::skipped)},
               {"time", seconds(facts.took_s)}},
              inside));
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + all.code() + "\n";
}

}  // namespace

std::string below_text(const Summary& graded, double fail_below_percent) {
  return fmt::format("grade {:.1f} ± {:.1f} %: surely below {} %", graded.percent.value_or(0),
                     coverage_factor_95 * graded.percent_uncertainty, fail_below_percent);
}

std::string junit(std::span<const Summary> graded, std::span<const SetAside> set_aside,
                  std::span<const SetAside> waiting, const RunFacts& facts) {
  std::vector<Case> cases;
  for (const auto& one : graded) cases.push_back(case_of(one, facts));
  for (const auto& one : set_aside) cases.push_back(case_of(one.submission, one.error));
  for (const auto& one : waiting)
    cases.push_back(skipped(one.submission, "waits: " + printable(to_string(one.error))));
  std::ranges::sort(cases, {}, &Case::submission);
  return document(cases, facts);
}

std::string junit_of_no_run(const Error& error, const RunFacts& facts) {
  return document({case_of("the whole run", error)}, facts);
}

}  // namespace rangecheck::report
