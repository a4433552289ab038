// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using grade::FilmVerdict;

/// More than this nobody does before the next film.
constexpr std::size_t most_items = 3;

/// Words by which the page's other remedies are about the same matter as a criterion.
constexpr std::array<std::pair<std::string_view, std::string_view>, 1> told_elsewhere{
    {{"frame-rate", "frames a second"}}};

/// One thing to do better, in one film or in both.
struct Item {
  std::vector<const grade::FilmQuality*> films;
  const grade::FilmJudgement* judgement;  ///< of the first of them
};

/// By criterion, the worse verdict first and then in the order of filming.yaml; films that have the
/// same advice are told together, by the worse of them.
std::vector<Item> all_items(const Graded& graded) {
  struct Placed {
    Item item;
    std::size_t place;
  };
  std::vector<Placed> placed;
  for (const auto verdict : {FilmVerdict::poor, FilmVerdict::fair}) {
    for (const auto& film : graded.films) {
      for (std::size_t i = 0; i < film.judged.size(); ++i) {
        const auto& one = film.judged[i];
        if (one.verdict != verdict) continue;
        const auto same = std::ranges::find_if(placed, [&](const Placed& other) {
          return other.item.judgement->criterion.id == one.criterion.id &&
                 other.item.judgement->criterion.advice == one.criterion.advice;
        });
        if (same == placed.end())
          placed.push_back({{{&film}, &one}, i});
        else
          same->item.films.push_back(&film);
      }
    }
  }
  std::ranges::stable_sort(placed, {}, [](const Placed& one) {
    return std::pair(one.item.judgement->verdict != FilmVerdict::poor, one.place);
  });
  std::vector<Item> out;
  for (auto& one : placed) out.push_back(std::move(one.item));
  return out;
}

std::vector<Item> worst_items(const Graded& graded) {
  auto items = all_items(graded);
  if (items.size() > most_items) items.resize(most_items);
  return items;
}

/// "too few pictures for a downswing (30 a second)"
std::string problem_text(const grade::FilmJudgement& one) {
  const auto& criterion = one.criterion;
  const std::string& words =
      one.verdict == FilmVerdict::poor ? criterion.when_poor : criterion.when_fair;
  const std::string value = value_text(one);
  if (words.empty()) return fmt::format("{}: {}", criterion.title, value);
  const std::string more = one.speaks ? value : one.detail;
  return more.empty() ? words : fmt::format("{} ({})", words, more);
}

bool remedy_has(const Graded& graded, std::string_view words) {
  const auto has = [words](const auto& one) { return one.remedy.find(words) != std::string::npos; };
  const auto& grade = graded.grade;
  return std::ranges::any_of(grade.not_found, has) ||
         std::ranges::any_of(results_with(grade, grade::Verdict::not_seen),
                             [&](const auto* one) { return has(*one); });
}

std::string item_text(const Graded& graded, const Item& item) {
  const auto& one = *item.judgement;
  std::string whose = "Both films";
  if (item.films.size() == 1) {
    whose = fmt::format("The {} film", intake::name_of(item.films.front()->view));
  }
  const auto same = std::ranges::find(told_elsewhere, one.criterion.id,
                                      &std::pair<std::string_view, std::string_view>::first);
  const bool told = same != told_elsewhere.end() && remedy_has(graded, same->second);
  return paragraph(fmt::format("{}: {}. {}", whose, problem_text(one),
                               told ? "How to film it is said above." : one.criterion.advice),
                   "  * ");
}

}  // namespace

bool told_off_square(const Graded& graded) {
  const auto items = worst_items(graded);
  return std::ranges::any_of(
      items, [](const Item& item) { return item.judgement->criterion.id == "camera-square"; });
}

std::string films_block(const Graded& graded) {
  const auto verdict = [&](FilmVerdict wanted) {
    return std::ranges::any_of(graded.films,
                               [wanted](const auto& film) { return film.verdict() == wanted; });
  };
  const auto items = worst_items(graded);
  if (items.empty())
    return verdict(FilmVerdict::good) ? heading("Your films") + "Well filmed: nothing to change.\n"
                                      : "";
  std::string text = heading("Your films");
  text += verdict(FilmVerdict::poor) ? "Before you film again:\n"
                                     : "They will do. Next time, if you can:\n";
  for (const auto& item : items) text += item_text(graded, item);
  return text;
}

}  // namespace rangecheck::report
