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

/// The remedies that ask for what the criterion "frame-rate" asks for too.
constexpr std::array<std::string_view, 3> remedies_of_rate{
    "remedy.faster-film", "remedy.closer-and-faster", "remedy.120-frames"};

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

/// One of the sentences of filming.yaml: the page's, where the coach has left ours as it is.
std::string worded(const Page& page, const grade::Criterion& criterion, intake::View view,
                   std::string_view field, std::string grade::Criterion::*member) {
  const auto& shipped = grade::shipped_filming().of(view);
  const auto same = std::ranges::find(shipped, criterion.id, &grade::Criterion::id);
  const std::string& said = criterion.*member;
  if (same == shipped.end() || (*same).*member != said) return page.words.tell(said).text;
  const std::string id = fmt::format("filming.{}.{}", criterion.id, field);
  return page.words.say_or(fmt::format("{}-{}", id, intake::name_of(view)),
                           page.words.say_or(id, said));
}

/// "too few pictures for a downswing (30 a second)"
std::string problem_text(const Page& page, const grade::FilmJudgement& one, intake::View view) {
  const bool poor = one.verdict == FilmVerdict::poor;
  const std::string words =
      poor ? worded(page, one.criterion, view, "when-poor", &grade::Criterion::when_poor)
           : worded(page, one.criterion, view, "when-fair", &grade::Criterion::when_fair);
  const std::string value = value_text(page.words, one);
  if (words.empty())
    return page.words.say(
        "films.titled",
        {{"title", worded(page, one.criterion, view, "title", &grade::Criterion::title)},
         {"value", value}});
  const std::string more = one.speaks ? value : say(page.words, one.detail);
  return more.empty() ? words
                      : page.words.say("films.with-more", {{"problem", words}, {"more", more}});
}

/// Whether the page asks for more pictures a second already.
bool asks_for_rate(const Graded& graded) {
  const auto has = [](const auto& one) {
    return std::ranges::find(remedies_of_rate, one.remedy.id) != remedies_of_rate.end();
  };
  const auto& grade = graded.grade;
  return std::ranges::any_of(grade.not_found, has) ||
         std::ranges::any_of(results_with(grade, grade::Verdict::not_seen),
                             [&](const auto* one) { return has(*one); });
}

std::string item_text(const Page& page, const Item& item) {
  const auto& one = *item.judgement;
  const intake::View view = item.films.front()->view;
  const bool told = one.criterion.id == "frame-rate" && asks_for_rate(page.graded);
  const std::string_view whose = item.films.size() > 1           ? "films.both"
                                 : view == intake::View::face_on ? "films.face-on"
                                                                 : "films.down-the-line";
  return page.words.say(
      whose,
      {{"problem", problem_text(page, one, view)},
       {"advice", told ? page.words.say("films.said-above")
                       : worded(page, one.criterion, view, "advice", &grade::Criterion::advice)}});
}

}  // namespace

bool told_off_square(const Graded& graded) {
  const auto items = worst_items(graded);
  return std::ranges::any_of(
      items, [](const Item& item) { return item.judgement->criterion.id == "camera-square"; });
}

FilmAdvice film_advice(const Page& page) {
  const auto verdict = [&](FilmVerdict wanted) {
    return std::ranges::any_of(page.graded.films,
                               [wanted](const auto& film) { return film.verdict() == wanted; });
  };
  FilmAdvice advice;
  const auto items = worst_items(page.graded);
  if (items.empty()) {
    if (verdict(FilmVerdict::good)) advice.lead = page.words.say("films.well");
    return advice;
  }
  advice.lead = page.words.say(verdict(FilmVerdict::poor) ? "films.before" : "films.next-time");
  for (const auto& item : items) advice.items.push_back(item_text(page, item));
  return advice;
}

}  // namespace rangecheck::report
