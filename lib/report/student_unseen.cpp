// SPDX-License-Identifier: MIT
#include <algorithm>
#include <tuple>

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
  int helpless = 0;  ///< 0 where the remedy is enough, 1 where it helps, 2 where it does not
};

int helpless(const Message& remedy) {
  return remedy.id == "remedy.none-is-enough" ? 2 : remedy.id == "remedy.most-from" ? 1 : 0;
}

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

Unseen unseen_as_such(const Page& page, const CheckResult& result) {
  const bool swing = shows_swing(page.graded);
  const Positions at = told_at(result.check.position, swing);
  const std::string title = in_sentence(page.words, title_of(page, result.check));
  const auto* measured = measurement_of(result, page.graded);
  const std::string remedy = say(page.words, result.remedy);
  if (!measured || !measured->value) return {remedy, say(page.words, result.reason), title, at};
  // Each such reason has numbers of its own; the page gives one reason, and at address the spread
  // of each. Through a swing there would be more spreads than anyone reads.
  const std::string reason = page.words.say("unseen.not-sharply");
  if (swing) return {remedy, reason, title, at};
  const Unit& unit = shown_unit(result.check, page.length_unit);
  const double half_width = shown(coverage_factor_95 * measured->standard_uncertainty, unit);
  const std::string half = with_symbol(page.words, digits(page.words, half_width, unit), unit);
  return {remedy, reason, page.words.say("unseen.spread", {{"title", title}, {"half", half}}), at};
}

Unseen unseen(const Page& page, const CheckResult& result) {
  Unseen out = unseen_as_such(page, result);
  out.helpless = helpless(result.remedy);
  return out;
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

std::vector<Unseen> all_unseen(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  std::vector<Unseen> entries;
  for (const auto& one : grade.not_found)
    entries.push_back({say(page.words, one.remedy), say(page.words, one.reason), "",
                       Positions::of(one.position)});
  for (const CheckResult* result : results_with(grade, Verdict::not_seen))
    if (!told_by_position(*result, page.graded)) entries.push_back(unseen(page, *result));
  return entries;
}

/// The positions among `entries`, then the checks.
std::string names_text(const Words& words, const std::vector<Unseen>& entries) {
  Positions positions;
  std::vector<Named> checks;
  for (const auto& entry : entries) {
    if (entry.title.empty()) {
      positions = positions | entry.at;
    } else {
      checks.push_back({entry.title, entry.at});
    }
  }
  const std::string joint = words.say("unseen.parts-joint");
  std::string text = listed(words, names_of(words, positions));
  if (!text.empty() && !checks.empty()) text += joint;
  return text + named_text(words, checks, joint);
}

}  // namespace

Positions told_at(Place place, bool swing) {
  return swing && place ? Positions::of(*place) : Positions();
}

std::string named_text(const Words& words, const std::vector<Named>& checks,
                       std::string_view joint) {
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
    const std::string names = listed(words, titles);
    text += at == Positions()
                ? names
                : words.say("unseen.at", {{"names", names}, {"positions", aliases(at)}});
  }
  return text;
}

std::vector<NotShown> not_shown(const Page& page) {
  auto by_remedy = grouped(all_unseen(page), &Unseen::remedy);
  const auto place = [&](const std::vector<Unseen>& group) {
    const bool position =
        std::ranges::any_of(group, [](const auto& entry) { return entry.title.empty(); });
    return std::tuple(group.front().helpless, !position, -std::ssize(group));
  };
  std::ranges::stable_sort(by_remedy, {}, place);
  std::vector<NotShown> groups;
  for (const auto& with_remedy : by_remedy) {
    NotShown group{.hidden = {},
                   .remedy = with_remedy.front().remedy,
                   .is_enough = with_remedy.front().helpless == 0,
                   .checks = static_cast<std::size_t>(std::ranges::count_if(
                       with_remedy, [](const auto& entry) { return !entry.title.empty(); }))};
    for (const auto& with_reason : grouped(with_remedy, &Unseen::reason))
      group.hidden.push_back({with_reason.front().reason, names_text(page.words, with_reason)});
    groups.push_back(std::move(group));
  }
  return groups;
}

std::string film_again(const Page& page) {
  auto groups = not_shown(page);
  std::erase_if(groups, [](const auto& group) { return !group.is_enough || group.remedy.empty(); });
  const std::string sentence = page.words.say("work.film-again");
  const auto most = std::ranges::max_element(groups, {}, &NotShown::checks);
  if (most == groups.end()) return sentence;
  return page.words.say("work.film-again-so", {{"again", sentence}, {"remedy", most->remedy}});
}

}  // namespace rangecheck::report
