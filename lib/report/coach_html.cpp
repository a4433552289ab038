// SPDX-License-Identifier: MIT
// The coach's page: the night at a glance, who needs attention, what is wrong most often.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "report/coach_page.hpp"
#include "report/html.hpp"
#include "report/present.hpp"
#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using html::element;
using html::Markup;
using html::section;
using html::text;

/// So many of the commonest faults are listed.
constexpr std::size_t most_faults = 12;

std::string policy() {
  return fmt::format(
      "default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-{}'; base-uri 'none'; "
      "form-action 'none'",
      coach_script_sha256);
}

/// A path of a link: everything but unreserved characters as %XX (RFC 3986, 2.1).
std::string link_part(std::string_view name) {
  std::string out;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    const bool unreserved = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') ||
                            (byte >= '0' && byte <= '9') || c == '-' || c == '.' || c == '_';
    out += unreserved ? std::string(1, c) : fmt::format("%{:02X}", byte);
  }
  return out;
}

/// A cell, with what it is sorted by; empty where there is nothing to sort by.
Markup cell(const std::string& key, const Markup& inside) {
  return element("td", {{"data-key", key}}, inside);
}

/// Its first column names the row. `heads` are ids of words.
Markup table(std::string_view id, const Words& words, std::string_view caption,
             std::initializer_list<std::string_view> heads, const Markup& rows) {
  Markup row;
  for (const auto head : heads)
    row += element("th", {{"scope", "col"}},
                   element("button", {{"type", "button"}, {"disabled", ""}}, words.say(head)));
  return element(
      "div",
      {{"class", "wide"},
       {"tabindex", "0"},
       {"role", "group"},
       {"aria-label", std::string(caption)}},
      element("table", {{"class", "sorted"}, {"id", std::string(id)}},
              element("thead", {}, element("tr", {}, row)) + element("tbody", {}, rows)));
}

/// Who has no grade first, then the lowest.
std::vector<const Graded*> by_need(std::span<const Graded> all) {
  std::vector<const Graded*> order;
  for (const auto& one : all) order.push_back(&one);
  std::ranges::stable_sort(order, {},
                           [](const Graded* one) { return one->grade.percent.value_or(-1); });
  return order;
}

std::string named(const Page& page, const grade::Check& check) {
  return titled_at(title_of(page, check), check.position);
}

std::string_view word_of(grade::FilmVerdict verdict) {
  switch (verdict) {
    case grade::FilmVerdict::good:
      return "coach.good";
    case grade::FilmVerdict::fair:
      return "coach.fair";
    case grade::FilmVerdict::poor:
      return "coach.poor";
    case grade::FilmVerdict::not_known:
      return "coach.not-known";
  }
  return "";
}

Markup roster_row(const Words& words, const Graded& graded) {
  const grade::Grade& grade = graded.grade;
  const Page page{graded, words, ""};
  const std::string who = name_of(page);
  const std::string link = "students/" + link_part(graded.submission) + "/page.html";
  const std::string work = !grade.percent ? words.say("coach.again")
                           : grade.work_on.empty()
                               ? words.say("coach.nothing")
                               : named(page, grade.results[grade.work_on.front()].check);
  const auto film = worse_film(graded);
  const std::string day = day_of(graded.received);
  const std::string film_word = words.say(word_of(film));
  const std::string stroke = stroke_line(page);
  return element(
      "tr", {},
      element("th", {{"scope", "row"}, {"data-key", who}},
              element("a", {{"href", link}}, element("bdi", {}, who))) +
          cell(graded.submission, text(graded.submission)) + cell(stroke, text(stroke)) +
          cell(day, text(day)) +
          cell(grade.percent ? fmt::format("{:.1f}", *grade.percent) : "",
               text(grade.percent ? percent_text(*grade.percent, grade.percent_uncertainty)
                                  : words.say("coach.no-grade"))) +
          cell(fmt::format("{:.3f}", grade.seen_share),
               text(fmt::format("{:.0f} %", 100 * grade.seen_share))) +
          cell(film_word, text(film_word)) + cell(work, text(work)));
}

struct Outside {
  std::string title;
  std::size_t low = 0, high = 0, other = 0, judged = 0;
  std::size_t found() const { return low + high + other; }
};

/// Over all submissions, what is surely outside most often; a check that nobody could be judged on
/// is no fault.
std::vector<Outside> commonest_faults(const Words& words, std::span<const Graded> all) {
  std::map<std::string, Outside> by_id;
  for (const auto& graded : all) {
    for (const auto& result : graded.grade.results) {
      if (!judged(result)) continue;
      Outside& fault = by_id[result.check.id];
      if (fault.title.empty()) fault.title = named({graded, words, ""}, result.check);
      ++fault.judged;
      fault.low += result.verdict == grade::Verdict::low;
      fault.high += result.verdict == grade::Verdict::high;
      fault.other += result.verdict == grade::Verdict::outside_words;
    }
  }
  std::vector<Outside> faults;
  for (auto& [id, fault] : by_id)
    if (fault.found() > 0) faults.push_back(std::move(fault));
  std::ranges::stable_sort(faults, std::greater<>(), &Outside::found);
  faults.resize(std::min(faults.size(), most_faults));
  return faults;
}

Markup fault_row(const Outside& fault) {
  const auto count = [](std::size_t n) { return cell(std::to_string(n), text(std::to_string(n))); };
  return element("tr", {},
                 element("th", {{"scope", "row"}, {"data-key", fault.title}}, fault.title) +
                     count(fault.found()) + count(fault.low) + count(fault.high) +
                     count(fault.judged));
}

Markup glance(const Words& words, std::span<const Graded> graded,
              std::span<const SetAside> set_aside) {
  const auto again = static_cast<std::size_t>(
      std::ranges::count_if(graded, [](const Graded& one) { return !one.grade.percent; }));
  Markup items;
  items += element("li", {}, words.say(graded.size() - again, "coach.graded"));
  items += element("li", {}, words.say(again, "coach.film-again"));
  items += element("li", {}, words.say(set_aside.size(), "coach.set-aside"));
  return element("ul", {}, items);
}

Markup roster_section(const Words& words, std::span<const Graded> graded) {
  if (graded.empty()) return {};
  Markup rows;
  for (const Graded* one : by_need(graded)) rows += roster_row(words, *one);
  const std::string heading = words.say("coach.roster");
  // Shown by the script that it works with.
  const Markup filter = element(
      "p", {{"hidden", ""}},
      element("label", {{"for", "filter"}}, words.say("coach.filter")) + text(" ") +
          html::lone("input", {{"id", "filter"}, {"type", "search"}, {"autocomplete", "off"}}) +
          text(" ") + element("span", {{"id", "shown"}, {"role", "status"}}, Markup()));
  return section("who", heading,
                 element("p", {{"class", "soft"}}, words.say("coach.order")) + filter +
                     table("roster", words, heading,
                           {"coach.student", "coach.submission", "coach.club", "coach.received",
                            "coach.grade", "coach.seen", "coach.films", "coach.work-on"},
                           rows));
}

Markup faults_section(const Words& words, std::span<const Graded> graded) {
  Markup rows;
  for (const auto& fault : commonest_faults(words, graded)) rows += fault_row(fault);
  if (rows.empty()) return {};
  const std::string heading = words.say("coach.faults");
  return section(
      "faults-heading", heading,
      table("faults", words, heading,
            {"coach.check", "coach.outside", "coach.too-low", "coach.too-high", "coach.judged"},
            rows));
}

Markup set_aside_section(const Words& words, std::span<const SetAside> set_aside) {
  if (set_aside.empty()) return {};
  Markup items;
  for (const auto& one : set_aside)
    items += element("li", {},
                     element("b", {}, one.submission) + text(": ") +
                         element("span", {{"lang", "en"}}, to_string(one.error)));
  return section("set-aside", words.say("coach.set-aside-heading"), element("ul", {}, items));
}

}  // namespace

std::string coach_html(std::span<const Graded> graded, std::span<const SetAside> set_aside,
                       const Words& words) {
  const Markup main = glance(words, graded, set_aside) + roster_section(words, graded) +
                      set_aside_section(words, set_aside) + faults_section(words, graded);
  return html::document(words.language(),
                        html::head(words.say("coach.title"), policy(), page_style()),
                        element("header", {}, element("h1", {}, words.say("coach.title"))) +
                            element("main", {}, main) + html::script(coach_script()));
}

}  // namespace rangecheck::report
