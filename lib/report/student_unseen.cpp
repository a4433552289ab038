// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Verdict;

/// A check or a position that the films do not show, as the page says it.
struct Unseen {
  std::string remedy, reason;
  std::string title;  ///< of the check; empty for a position
  Positions at;
};

/// The entries whose `field` is the same, together, in the order in which each first comes up.
std::vector<std::vector<Unseen>> grouped(const std::vector<Unseen>& entries,
                                         std::string Unseen::*field) {
  std::vector<std::vector<Unseen>> groups;
  for (const auto& entry : entries) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& group) {
      return group.front().*field == entry.*field;
    });
    if (same == groups.end()) {
      groups.push_back({entry});
    } else {
      same->push_back(entry);
    }
  }
  return groups;
}

const measure::Measurement* measurement_of(const CheckResult& result, const Graded& graded) {
  const auto found =
      std::find_if(graded.measured.begin(), graded.measured.end(), [&](const auto& one) {
        return one.rule->id == result.check.rule && one.position == result.check.position;
      });
  return found == graded.measured.end() ? nullptr : &*found;
}

Unseen unseen(const CheckResult& result, const Graded& graded, std::string_view length_unit) {
  const bool swing = shows_swing(graded);
  const Positions at = told_at(result.check.position, swing);
  const std::string title = lower(result.check.title);
  const auto* measured = measurement_of(result, graded);
  if (!measured || !measured->value) return {result.remedy, result.reason, title, at};
  // Each such reason has numbers of its own; the page gives one reason, and at address the spread
  // of each. Through a swing there would be more spreads than anyone reads.
  constexpr std::string_view reason = "not sharply enough";
  if (swing) return {result.remedy, std::string(reason), title, at};
  const Unit& unit = shown_unit(result.check, length_unit);
  const double half_width = shown(coverage_factor_95 * measured->standard_uncertainty, unit);
  return {result.remedy, std::string(reason),
          fmt::format("{} (± {}{}{})", title, digits(half_width, unit),
                      unit.symbol.empty() ? "" : " ", unit.symbol),
          at};
}

/// Whether the page has said why already, by the position that was not found.
bool told_by_position(const CheckResult& result, const Graded& graded) {
  const auto& not_found = graded.grade.not_found;
  const Place place = result.check.position;
  // Without a swing there is no time of a swing either.
  if (!place && result.check.subject == grade::Subject::measured)
    return !not_found.empty() && !shows_swing(graded);
  return std::any_of(not_found.begin(), not_found.end(),
                     [&](const auto& one) { return one.position == place; });
}

std::vector<Unseen> all_unseen(const Graded& graded, std::string_view length_unit) {
  std::vector<Unseen> entries;
  for (const auto& one : graded.grade.not_found)
    entries.push_back({one.remedy, one.reason, "", Positions::of(one.position)});
  for (const CheckResult* result : results_with(graded.grade, Verdict::not_seen))
    if (!told_by_position(*result, graded)) entries.push_back(unseen(*result, graded, length_unit));
  return entries;
}

/// The positions among `entries`, then the checks.
std::string names_text(const std::vector<Unseen>& entries) {
  Positions positions;
  std::vector<Named> checks;
  for (const auto& entry : entries) {
    if (entry.title.empty()) {
      positions = positions | entry.at;
    } else {
      checks.push_back({entry.title, entry.at});
    }
  }
  std::string text = listed(names_of(positions));
  if (!text.empty() && !checks.empty()) text += "; ";
  return text + named_text(checks);
}

}  // namespace

Positions told_at(Place place, bool swing) {
  return swing && place ? Positions::of(*place) : Positions();
}

std::string named_text(const std::vector<Named>& checks, std::string_view joint) {
  std::vector<Named> merged;
  for (const auto& check : checks) {
    const auto same = std::find_if(merged.begin(), merged.end(),
                                   [&](const auto& one) { return one.title == check.title; });
    if (same == merged.end()) {
      merged.push_back(check);
    } else {
      same->at = same->at | check.at;
    }
  }
  std::string text;
  while (!merged.empty()) {
    const Positions at = merged.front().at;
    const auto others = std::stable_partition(merged.begin(), merged.end(),
                                              [&](const auto& one) { return one.at == at; });
    std::vector<std::string> titles;
    for (auto one = merged.begin(); one != others; ++one) titles.push_back(one->title);
    merged.erase(merged.begin(), others);
    if (!text.empty()) text += joint;
    text += listed(titles);
    if (at != Positions()) text += fmt::format(" ({})", aliases(at));
  }
  return text;
}

std::string not_shown_block(const Graded& graded, std::string_view length_unit) {
  const auto entries = all_unseen(graded, length_unit);
  if (entries.empty()) return "";
  std::string text = heading("What the films could not show");
  for (const auto& with_remedy : grouped(entries, &Unseen::remedy)) {
    for (const auto& with_reason : grouped(with_remedy, &Unseen::reason))
      text += paragraph(fmt::format("{}: {}", with_reason.front().reason, names_text(with_reason)),
                        "  * ");
    const std::string& remedy = with_remedy.front().remedy;
    if (!remedy.empty()) text += paragraph(remedy, "    To see this: ");
  }
  return text;
}

std::string left_out_lines(const Graded& graded) {
  std::vector<Unseen> entries;
  for (const CheckResult* result : results_with(graded.grade, Verdict::switched_off))
    entries.push_back({"", result->reason, lower(result->check.title),
                       told_at(result->check.position, shows_swing(graded))});
  std::string text;
  for (const auto& group : grouped(entries, &Unseen::reason)) {
    std::string names = names_text(group);
    if (names.front() >= 'a' && names.front() <= 'z')
      names.front() = static_cast<char>(names.front() - 'a' + 'A');
    text += paragraph(fmt::format("{}: left out, {}", names, group.front().reason), "  * ");
  }
  return text;
}

}  // namespace rangecheck::report
