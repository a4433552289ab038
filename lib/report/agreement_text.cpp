// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <ranges>
#include <span>

#include "base/text.hpp"
#include "report/agreement.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

using history::CheckComparison;
using history::Comparison;

// Of the table, in columns; 80 together.
constexpr std::size_t title_width = 28, pairs_width = 5, bias_width = 15, limits_width = 17,
                      icc_width = 6, change_width = 9;

/// A line through differences that is as steep by chance less often than this is told.
constexpr double telling_p = 0.05;
/// More names than these help nobody on a terminal.
constexpr std::size_t most_names = 6;

std::string right(const std::string& text, std::size_t width) {
  const std::size_t taken = columns(text);
  return std::string(taken < width ? width - taken : 1, ' ') + text;
}

std::string line(const std::string& title, const std::string& pairs, const std::string& bias,
                 const std::string& limits, const std::string& icc, const std::string& change) {
  return padded(title, title_width) + right(pairs, pairs_width) + right(bias, bias_width) +
         right(limits, limits_width) + right(icc, icc_width) + right(change, change_width) + "\n";
}

const Unit& unit_of(const CheckComparison& comparison, std::string_view length_unit) {
  return shown_unit(comparison.check.dimension, comparison.check.unit, length_unit);
}

/// To a tenth at least, unlike single readings: a mean of many is better known than one.
std::string number(double si, const Unit& unit) {
  const int places = std::max(decimals(unit), 1);
  const double step = std::pow(10, -places);
  // Adding 0 makes a 0 of -0.
  return fmt::format("{:.{}f}", std::round(shown(si, unit) / step) * step + 0.0, places);
}

std::string measured(double si, const Unit& unit) {
  return with_symbol(english(), number(si, unit), unit);
}

/// "-1.1 to 1.7 in"
std::string range(const history::Interval& interval, const Unit& unit) {
  return with_symbol(english(), number(interval.low, unit) + " to " + number(interval.high, unit),
                     unit);
}

/// "0.3 in more", "0.3 in less"
std::string more_or_less(double si, const Unit& unit) {
  return measured(std::abs(si), unit) + (si < 0 ? " less" : " more");
}

/// "0.3 in more than", or "the same as" where that would be 0.
std::string more_or_less_than(double si, const Unit& unit) {
  return number(si, unit) == number(0, unit) ? "the same as" : more_or_less(si, unit) + " than";
}

std::string bias_text(const history::Differences& found, const Unit& unit) {
  const double half = (found.bias_95.high - found.bias_95.low) / 2;
  return with_symbol(english(), number(found.bias, unit) + " ± " + number(half, unit), unit);
}

std::string titled(const CheckComparison& comparison) {
  return printable(titled_at(comparison.check.title, comparison.check.position));
}

std::string check_line(const CheckComparison& comparison, std::string title,
                       std::string_view length_unit) {
  const Unit& unit = unit_of(comparison, length_unit);
  const auto& found = *comparison.differences;
  std::string above;
  // A long title has a line of its own.
  if (columns(title) >= title_width) {
    above = title + "\n";
    title.clear();
  }
  return above +
         line(title, std::to_string(comparison.pairs.size()), bias_text(found, unit),
              range(found.limits, unit),
              comparison.icc ? fmt::format("{:.2f}", comparison.icc->value) : "-",
              measured(history::least_detectable(*comparison.standard_error_of_measurement_si),
                       unit));
}

std::string place_heading(Place place) {
  return place ? fmt::format("{} ({})\n", title_of(english(), *place), alias_of(*place))
               : std::string("The whole swing\n");
}

/// Whether both have the very same numbers, as from the same films by another profile.
bool all_same(const Comparison& both) {
  return std::ranges::all_of(both.checks, [](const CheckComparison& check) {
    return std::ranges::all_of(check.pairs,
                               [](const history::Pair& pair) { return pair.first == pair.second; });
  });
}

std::string table(const Comparison& both, std::string_view length_unit) {
  std::string text;
  const auto add = [&](const CheckComparison& check) {
    if (check.differences)
      text += check_line(check, "  " + printable(check.check.title), length_unit);
  };
  for (const Place& place : all_same(both) ? std::span<const Place>() : all_places) {
    const std::size_t before = text.size();
    for (const auto& check : both.checks)
      if (Place(check.check.position) == place) add(check);
    if (text.size() > before) text.insert(before, place_heading(place));
  }
  if (both.grade && both.grade->differences) text += check_line(*both.grade, "Grade", length_unit);
  if (text.empty()) return "";
  return "\n" + line("", "pairs", "second - first", "95 % lie in", "ICC", "MDC") + text;
}

/// "7 in the first only (a, b and c)"
std::string only_in(const std::vector<std::string>& ids, std::string_view which) {
  std::string text = fmt::format("{} in the {} only", ids.size(), which);
  if (ids.empty() || ids.size() > most_names) return text;
  std::vector<std::string> names;
  for (const auto& id : ids) names.push_back(shortened(id));
  return text + " (" + listed(names) + ")";
}

std::string submissions_text(const Comparison& both) {
  std::string text = paragraph(
      fmt::format("{} in both, {}, {}.", count_of(both.in_both, "submission"),
                  only_in(both.only_first, "first"), only_in(both.only_second, "second")));
  if (!both.ambiguous.empty())
    text += paragraph(fmt::format(
        "Left out, since one of the two names a student alone who has several submissions in the "
        "other: {}. Name the submission.",
        listed(both.ambiguous)));
  if (!both.students)
    text += paragraph(
        "Whose submissions these are is not said: if some are of one student, the intervals below "
        "are too narrow.");
  else if (*both.students < both.in_both)
    text += paragraph(
        fmt::format("They are of {}. What is read of one student is not independent, so the "
                    "intervals below are rather too narrow.",
                    count_of(*both.students, "student")));
  return text;
}

std::string values_text(const Comparison& both) {
  std::size_t pairs = 0, first = 0, second = 0;
  for (const auto& check : both.checks) {
    pairs += check.pairs.size();
    first += check.first_only;
    second += check.second_only;
  }
  std::string text = fmt::format(
      "Of their checks {} can be compared; {} were read by the first only, {} by the second only.",
      count_of(pairs, "value"), first, second);
  if (pairs > 0 && all_same(both))
    text += " All are the very same numbers: only verdicts and grades can differ.";
  return paragraph(text);
}

std::string too_few_text(const Comparison& both) {
  std::vector<std::string> few;
  for (const auto& check : both.checks)
    if (!check.pairs.empty() && !check.differences) few.push_back(titled(check));
  if (few.empty() || all_same(both)) return "";
  return "\n" + paragraph(fmt::format(
                    "Too few to say anything (fewer than {} pairs): {}.", history::least_pairs,
                    few.size() > most_names ? count_of(few.size(), "check") : listed(few)));
}

/// What the numbers of the check with most pairs say.
std::string reading_text(const Comparison& both, std::string_view length_unit) {
  const CheckComparison* most = nullptr;
  for (const auto& check : both.checks)
    if (check.differences && (!most || check.pairs.size() > most->pairs.size())) most = &check;
  if (!most || all_same(both)) return "";
  const Unit& unit = unit_of(*most, length_unit);
  const auto& found = *most->differences;
  return "\n" +
         paragraph(fmt::format(
             "How to read it: for {} the second reads {} the first on average, and about "
             "19 of 20 submissions anything from {} to {}. With {} these two ends are themselves "
             "only known to lie in {} and in {}.",
             in_sentence(english(), titled(*most)), more_or_less_than(found.bias, unit),
             more_or_less(found.limits.low, unit), more_or_less(found.limits.high, unit),
             count_of(found.pairs, "pair"), range(found.lower_limit_95, unit),
             range(found.upper_limit_95, unit))) +
         paragraph(
             "ICC is 1 where both read the same of every student, and near 0 or below where they "
             "differ as much as students do (ICC(2,1), absolute agreement of single readings). "
             "MDC is the minimal detectable change at 95 %: a student's change from one swing to "
             "another has to be larger, or it may be the readings' scatter alone.");
}

std::string trends_text(const Comparison& both) {
  std::vector<std::string> found;
  std::size_t looked_at = 0;
  for (const auto& check : both.checks) {
    if (!check.trend) continue;
    ++looked_at;
    if (check.trend->p < telling_p)
      found.push_back(fmt::format("{} ({:+.2f})", titled(check), check.trend->slope));
  }
  if (found.empty()) return "";
  return "\n" + paragraph(fmt::format(
                    "Differences change with size (by how much for each 1 more) in {}. Of {} one "
                    "in twenty shows by chance.",
                    listed(found), count_of(looked_at, "check")));
}

std::string percent(std::size_t part, std::size_t whole) {
  return fmt::format("{:.0f} %", 100 * static_cast<double>(part) / static_cast<double>(whole));
}

std::string honesty_text(const Comparison& both) {
  const history::Honesty& honesty = both.honesty;
  if (honesty.stated == 0 || all_same(both)) return "";
  return "\n" +
         paragraph(fmt::format(
             "Of {} where both state an uncertainty, {} are no larger than the two allow, "
             "1.96 √(u₁² + u₂²): 95 % would be if both say it rightly and share no error.",
             count_of(honesty.stated, "difference"), percent(honesty.within, honesty.stated)));
}

/// "They differ most in forward bend (p1) (3 of 15) and side bend (p1) (1 of 9)."
std::string differing_text(const Comparison& both) {
  std::vector<const CheckComparison*> differing;
  const auto differ = [](const CheckComparison* check) {
    return check->verdicts.total() - check->verdicts.same();
  };
  for (const auto& check : both.checks)
    if (differ(&check) > 0) differing.push_back(&check);
  std::ranges::stable_sort(differing, std::greater(), differ);
  std::vector<std::string> names;
  for (const auto* check : differing | std::views::take(most_names))
    names.push_back(fmt::format("{} ({} of {})", in_sentence(english(), titled(*check)),
                                differ(check), check->verdicts.total()));
  return names.empty() ? "" : fmt::format(" They differ most in {}.", listed(names));
}

std::string verdicts_text(const Comparison& both) {
  const history::Verdicts& verdicts = both.verdicts;
  if (verdicts.total() == 0) return "";
  const auto kappa = history::cohen_kappa(verdicts.both, history::deciding_count);
  const std::string beyond_chance = kappa
                                        ? fmt::format("Cohen's kappa {:.2f} ± {:.2f}", kappa->value,
                                                      coverage_factor_95 * kappa->standard_error)
                                        : "no kappa: there is one verdict only";
  return "\n" +
         paragraph(fmt::format("Verdicts (inside, low, high, outside): both decide in {} and say "
                               "the same in {} ({}); only the first decides in {}, only the second "
                               "in {}.",
                               count_of(verdicts.total(), "case"),
                               percent(verdicts.same(), verdicts.total()), beyond_chance,
                               verdicts.first_only, verdicts.second_only) +
                   differing_text(both));
}

}  // namespace

std::string agreement_text(const Compared& names, const Comparison& both,
                           std::string_view length_unit) {
  return paragraph("first:  " + shortened(names.first)) +
         paragraph("second: " + shortened(names.second)) + submissions_text(both) +
         values_text(both) + table(both, length_unit) + too_few_text(both) +
         reading_text(both, length_unit) + trends_text(both) + honesty_text(both) +
         verdicts_text(both);
}

}  // namespace rangecheck::report
