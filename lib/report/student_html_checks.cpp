// SPDX-License-Identifier: MIT
#include <algorithm>

#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Verdict;
using html::element;
using html::Markup;
using html::text;

Markup check_item(const Page& page, const CheckResult& result) {
  Markup numbers = element("b", {}, measured_text(page, result));
  numbers +=
      text(", ") + text(page.words.say("checks.wanted") + " " + wanted_text(page, result.check));
  Markup inside =
      element("p", {{"class", "name"}}, title_of(page, result.check)) +
      element("p", {{"class", "verdict " + verdict_class(result)}}, verdict_mark(page, result)) +
      element("p", {{"class", "numbers"}}, numbers) + band_picture(page, result);
  for (const auto& remark : remarks(page, result))
    inside += element("p", {{"class", "remark"}}, remark);
  return element("li", {}, inside);
}

Markup check_list(const Page& page, const Results& results) {
  Markup items;
  for (const CheckResult* result : results) items += check_item(page, *result);
  return items.empty() ? items : element("ul", {{"class", "checks"}}, items);
}

Markup lists_by_region(const Page& page) {
  Markup out;
  std::string region;
  Results in_region;
  const auto close = [&] {
    if (!in_region.empty())
      out += element("div", {{"class", "region"}},
                     element("h3", {}, region) + check_list(page, in_region));
    in_region.clear();
  };
  for (const auto& result : page.graded.grade.results) {
    if (!judged(result)) continue;
    if (const std::string next = region_title(page, result.check); next != region) {
      close();
      region = next;
    }
    in_region.push_back(&result);
  }
  close();
  return element("div", {{"class", "regions"}}, out);
}

/// "12 good and 3 can't tell"
std::string kinds_of(const Page& page, const Results& results) {
  std::vector<std::string> kinds;
  for (const auto verdict : {Verdict::inside, Verdict::unsure}) {
    const std::size_t count = count_with(results, verdict);
    if (count == 0) continue;
    const auto& one = **std::ranges::find(results, verdict, &CheckResult::verdict);
    kinds.push_back(page.words.say(count, "checks.kind", {{"verdict", verdict_text(page, one)}}));
  }
  return listed(page.words, kinds);
}

Markup place_block(const Page& page, const std::string& name, const std::string& grade,
                   const Results& results) {
  Results wrong, rest;
  for (const CheckResult* result : results)
    if (judged(*result)) (outside(*result) ? wrong : rest).push_back(result);
  if (wrong.empty() && rest.empty()) return {};
  Markup title = text(name);
  if (grade != "-") title += text(" ") + element("span", {{"class", "grade"}}, grade);
  Markup out = element("h3", {}, title) + check_list(page, wrong);
  if (!rest.empty()) {
    const std::string more =
        page.words.say(rest.size(), wrong.empty() ? "checks.all" : "checks.more",
                       {{"kinds", kinds_of(page, rest)}});
    out += element("details", {}, element("summary", {}, more) + check_list(page, rest));
  }
  return element("div", {{"class", "region"}}, out);
}

Markup lists_by_position(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  Markup out;
  for (const Position position : all_positions)
    out +=
        place_block(page,
                    page.words.say("checks.position", {{"title", title_of(page.words, position)},
                                                       {"alias", std::string(alias_of(position))}}),
                    grade_text(page, position), results_at(grade, position));
  for (const auto& rest : rest_of(grade))
    out += place_block(page, name_of_rest(page, rest), "-", rest);
  return element("div", {{"class", "regions"}}, out);
}

Markup overview_row(const Page& page, Place place, const std::vector<VerdictColumn>& heads) {
  const Results results = results_at(page.graded.grade, place);
  const std::string name =
      place ? page.words.say("checks.position", {{"title", title_of(page.words, *place)},
                                                 {"alias", std::string(alias_of(*place))}})
            : name_of_rest(page, results);
  Markup cells =
      element("th", {{"scope", "row"}}, name) + element("td", {}, grade_text(page, place));
  const bool any =
      std::ranges::any_of(results, [](const CheckResult* one) { return judged(*one); });
  for (const VerdictColumn& head : heads)
    cells += element("td", {},
                     any || !not_found(page.graded.grade, place)
                         ? std::to_string(count_with(results, head.verdict))
                         : std::string());
  return element("tr", {}, cells);
}

}  // namespace

std::string verdict_class(const CheckResult& result) { return verdict_class(result.verdict); }

std::string verdict_class(Verdict verdict) {
  if (outside(verdict)) return "out";
  return verdict == Verdict::inside ? "in" : "open";
}

Markup verdict_mark(const Page& page, const CheckResult& result) {
  const auto sign = [&]() -> std::string_view {
    switch (result.verdict) {
      case Verdict::inside:
        return "✓";
      case Verdict::low:
        return "↓";
      case Verdict::high:
        return "↑";
      case Verdict::outside_words:
        return "≠";
      default:
        return "?";
    }
  }();
  return element("span", {{"aria-hidden", "true"}}, sign) + text(" ") +
         text(verdict_text(page, result));
}

Markup overview_section(const Page& page) {
  if (!shows_swing(page.graded)) return {};
  const auto heads = used_columns(page);
  Markup head =
      element("td", {}, "") + element("th", {{"scope", "col"}}, page.words.say("glance.grade"));
  for (const VerdictColumn& column : heads) head += element("th", {{"scope", "col"}}, column.head);
  Markup rows;
  for (const Place place : all_places)
    if (!results_at(page.graded.grade, place).empty()) rows += overview_row(page, place, heads);
  // A wide table scrolls by itself, and can be reached by keyboard to do so.
  return element("section", {{"aria-labelledby", "glance"}},
                 element("h2", {{"id", "glance"}}, page.words.say("glance.heading")) +
                     element("div",
                             {{"class", "wide"},
                              {"tabindex", "0"},
                              {"role", "group"},
                              {"aria-labelledby", "glance"}},
                             element("table", {{"class", "glance"}},
                                     element("thead", {}, element("tr", {}, head)) +
                                         element("tbody", {}, rows))));
}

Markup checks_section(const Page& page) {
  Markup lists = shows_swing(page.graded) ? lists_by_position(page) : lists_by_region(page);
  if (std::ranges::none_of(page.graded.grade.results, judged))
    lists = element("p", {}, page.words.say("checks.none"));
  return element("section", {{"aria-labelledby", "checks"}},
                 element("h2", {{"id", "checks"}}, say_of_subject(page, "checks.heading")) +
                     element("p", {{"class", "soft"}},
                             page.words.say("checks.legend") + " " +
                                 page.words.say("checks.about-intervals")) +
                     lists);
}

}  // namespace rangecheck::report
