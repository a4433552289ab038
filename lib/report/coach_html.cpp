// SPDX-License-Identifier: MIT
// The coach's page: the night at a glance, who needs attention, what is wrong most often.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "report/coach_page.hpp"
#include "report/html.hpp"
#include "report/present.hpp"
#include "report/student_html.hpp"
#include "report/student_page.hpp"

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
             std::initializer_list<std::string_view> heads, Markup rows) {
  Markup row;
  for (const auto head : heads)
    row += element("th", {{"scope", "col"}},
                   element("button", {{"type", "button"}, {"disabled", ""}}, words.say(head)));
  return element("div",
                 {{"class", "wide"},
                  {"tabindex", "0"},
                  {"role", "group"},
                  {"aria-label", std::string(caption)}},
                 element("table", {{"class", "sorted"}, {"id", std::string(id)}},
                         element("thead", {}, element("tr", {}, row)) +
                             element("tbody", {}, std::move(rows))));
}

std::string named(const Words& words, const NamedCheck& check) {
  return titled_at(title_of(words, check), check.position);
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

Markup roster_row(const Words& words, const Summary& one) {
  const std::string who = name_of(one.name, one.student);
  const std::string page = "students/" + link_part(one.submission) + "/page.html";
  const std::string work = !one.percent          ? words.say("coach.again")
                           : one.work_on.empty() ? words.say("coach.nothing")
                                                 : named(words, one.work_on.front());
  const std::string day = day_of(one.received);
  const std::string film_word = words.say(word_of(one.films));
  const std::string stroke = stroke_line(words, one.club, one.swing);
  return element("tr", {},
                 element("th", {{"scope", "row"}, {"data-key", who}},
                         element("a", {{"href", page}}, element("bdi", {}, who))) +
                     cell(one.submission, text(one.submission)) + cell(stroke, text(stroke)) +
                     cell(day, text(day)) +
                     cell(one.percent ? fmt::format("{:.1f}", *one.percent) : "",
                          text(one.percent ? percent_text(*one.percent, one.percent_uncertainty)
                                           : words.say("coach.no-grade"))) +
                     cell(fmt::format("{:.3f}", one.seen_share),
                          text(fmt::format("{:.0f} %", 100 * one.seen_share))) +
                     cell(film_word, text(film_word)) + cell(work, text(work)));
}

/// Somebody's row, and where it belongs: who has no grade first, then the lowest.
struct Ranked {
  double percent = -1;
  Markup row;
};

struct Outside {
  std::string title;
  std::size_t low = 0, high = 0, other = 0, judged = 0;
  std::size_t found() const { return low + high + other; }
};

using OutsideById = std::map<std::string, Outside>;

void count_outside(const Words& words, const Entry& entry, OutsideById& by_id) {
  for (const auto& each : entry.checks) {
    if (!is_judged(each.verdict)) continue;
    Outside& fault = by_id[each.check.id];
    if (fault.title.empty()) fault.title = named(words, each.check);
    ++fault.judged;
    fault.low += each.verdict == grade::Verdict::low;
    fault.high += each.verdict == grade::Verdict::high;
    fault.other += each.verdict == grade::Verdict::outside_words;
  }
}

/// Over all submissions, what is surely outside most often; a check that nobody could be judged on
/// is no fault.
std::vector<Outside> commonest_faults(OutsideById by_id) {
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

Markup glance(const Words& words, std::span<const Ranked> graded,
              std::span<const SetAside> set_aside, std::span<const SetAside> waiting) {
  const auto again = static_cast<std::size_t>(
      std::ranges::count_if(graded, [](const Ranked& one) { return one.percent < 0; }));
  Markup items;
  items += element("li", {}, words.say(graded.size() - again, "coach.graded"));
  items += element("li", {}, words.say(again, "coach.film-again"));
  items += element("li", {}, words.say(set_aside.size(), "coach.set-aside"));
  if (!waiting.empty()) items += element("li", {}, words.say(waiting.size(), "coach.waiting"));
  return element("ul", {}, std::move(items));
}

Markup roster_section(const Words& words, std::vector<Ranked> graded) {
  if (graded.empty()) return {};
  std::ranges::stable_sort(graded, {}, &Ranked::percent);
  Markup rows;
  for (auto& one : graded) rows += std::exchange(one.row, {});
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
                           std::move(rows)));
}

Markup faults_section(const Words& words, OutsideById by_id) {
  Markup rows;
  for (const auto& fault : commonest_faults(std::move(by_id))) rows += fault_row(fault);
  if (rows.empty()) return {};
  const std::string heading = words.say("coach.faults");
  return section(
      "faults-heading", heading,
      table("faults", words, heading,
            {"coach.check", "coach.outside", "coach.too-low", "coach.too-high", "coach.judged"},
            std::move(rows)));
}

/// What there is no page for, each with its reason.
Markup reasons_section(std::string_view id, const std::string& heading,
                       std::span<const SetAside> all) {
  if (all.empty()) return {};
  Markup items;
  for (const auto& one : all)
    items += element("li", {},
                     element("b", {}, one.submission) + text(": ") +
                         element("span", {{"lang", "en"}}, to_string(one.error)));
  return section(id, heading, element("ul", {}, std::move(items)));
}

}  // namespace

Result<std::string> coach_html(const Entries& graded, std::span<const SetAside> set_aside,
                               std::span<const SetAside> waiting, const Words& words) {
  std::vector<Ranked> all;
  OutsideById outside;
  const auto read = graded([&](const Entry& entry) {
    all.push_back({entry.summary.percent.value_or(-1), roster_row(words, entry.summary)});
    count_outside(words, entry, outside);
  });
  if (!read) return read.error();
  Markup main = glance(words, all, set_aside, waiting);
  main = std::move(main) + roster_section(words, std::move(all)) +
         reasons_section("set-aside", words.say("coach.set-aside-heading"), set_aside) +
         reasons_section("waiting", words.say("coach.waiting-heading"), waiting) +
         faults_section(words, std::move(outside));
  return html::document(words.language(),
                        html::head(words.say("coach.title"), policy(), page_style()),
                        element("header", {}, element("h1", {}, words.say("coach.title"))) +
                            element("main", {}, std::move(main)) + html::script(coach_script()));
}

}  // namespace rangecheck::report
