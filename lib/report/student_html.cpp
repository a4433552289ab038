// SPDX-License-Identifier: MIT
// The student's page as one HTML file: what it says is student_page's, here it gets its order.
#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using html::element;
using html::Markup;
using html::section;
using html::text;

/// Styles stand in the file; nothing else may be loaded or run, whatever got into it.
constexpr std::string_view policy =
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

Markup header(const Page& page) {
  Markup inside = element("h1", {}, element("bdi", {}, name_of(page))) +
                  element("p", {{"class", "what"}}, what_line(page)) +
                  element("p", {}, held_against(page));
  if (const auto only = address_only(page); !only.empty()) inside += element("p", {}, only);
  return element("header", {}, inside);
}

Markup bullets(const std::vector<std::string>& lines) {
  Markup items;
  for (const auto& line : lines) items += element("li", {}, line);
  return element("ul", {}, items);
}

Markup work_text(const Page& page, const CheckResult& result) {
  const WorkItem item = work_item(page, result);
  Markup out = element("h3", {}, item.heading);
  out += element(
      "p", {{"class", "numbers"}},
      element("span", {{"class", "verdict " + verdict_class(result)}}, verdict_mark(page, result)) +
          text("; " + page.words.say("checks.wanted") + " " + item.wanted));
  out += band_picture(page, result);
  if (!item.sign.empty()) out += element("p", {{"class", "soft"}}, item.sign);
  const auto part = [&](std::string_view label, const Markup& inside, std::string_view kind) {
    out += element("div", {{"class", std::string(kind)}},
                   element("dt", {}, page.words.say(label)) + element("dd", {}, inside));
  };
  Markup list;
  std::swap(list, out);
  Markup why = told(page, item.why);
  if (!item.follows.empty()) why += text(" " + item.follows);
  part("work.why", why, "why");
  if (!item.aim.empty()) part("work.aim", told(page, item.aim), "aim");
  if (!item.drill.empty()) part("work.drill", told(page, item.drill), "drill");
  if (!item.careful.empty()) part("work.careful", told(page, item.careful), "careful");
  return list + element("dl", {}, out);
}

Markup work_section(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  const auto& words = page.words;
  Markup inside;
  // Too little for a grade is too little for advice: the one thing to do is to film again.
  if (!grade.percent) {
    inside = element("p", {{"class", "lead"}}, film_again(page));
  } else if (grade.work_on.empty()) {
    inside = element("p", {{"class", "lead"}}, say_of_subject(page, "work.nothing"));
  }
  for (std::size_t i = 0; grade.percent && i < grade.work_on.size(); ++i) {
    if (i == 1) inside += element("p", {{"class", "then"}}, words.say("work.then"));
    const CheckResult& result = grade.results[grade.work_on[i]];
    inside +=
        i == 0 ? element("article", {{"class", "first"}},
                         element("div", {}, work_text(page, result)) + first_figure(page, result))
               : element("article", {{"class", "later"}}, work_text(page, result));
  }
  return section("work", words.say("work.heading"), element("div", {{"class", "work"}}, inside));
}

Markup since_section(const Page& page) {
  const auto [lead, changes, more] = since_last(page);
  if (lead.empty()) return {};
  Markup inside = element("p", {}, lead);
  if (!changes.empty()) inside += bullets(changes);
  if (!more.empty()) inside += element("p", {{"class", "soft"}}, more);
  return section("since", page.words.say("since.heading"), inside + progress_pictures(page));
}

Markup not_shown_section(const Page& page) {
  const auto groups = not_shown(page);
  if (groups.empty()) return {};
  Markup items;
  for (const auto& group : groups) {
    Markup inside;
    for (const auto& one : group.hidden)
      inside += element(
          "p", {}, page.words.say("unseen.line", {{"reason", one.reason}, {"names", one.names}}));
    if (!group.remedy.empty())
      inside +=
          element("p", {{"class", "remedy"}},
                  element("b", {}, page.words.say("unseen.to-see")) + text(" " + group.remedy));
    items += element("li", {}, inside);
  }
  return section("unseen", page.words.say("unseen.heading"),
                 element("ul", {{"class", "unseen"}}, items));
}

Markup films_section(const Page& page) {
  const auto advice = film_advice(page);
  if (advice.lead.empty()) return {};
  return section(
      "films", page.words.say("films.heading"),
      element("p", {}, advice.lead) + (advice.items.empty() ? Markup() : bullets(advice.items)));
}

Markup notes_section(const Page& page) {
  Markup out;
  if (const auto notes = film_notes(page.graded, page.words); !notes.empty())
    out += section("notes", page.words.say("notes.films"), bullets(notes));
  Markup judged;
  for (const auto& [limit, because, changes] : judged_notes(page)) {
    const Markup why = limit.empty()
                           ? told(page, because)
                           : told(page, limit) + text(" (") + told(page, because) + text(")");
    judged += element("li", {}, why + text(": " + changes));
  }
  for (const auto& note : page.graded.grade.notes)
    judged += element("li", {}, say(page.words, note));
  if (!judged.empty())
    out += section("judged", page.words.say("notes.judged"), element("ul", {}, judged));
  return out;
}

Markup footer(const Page& page) {
  return element(
      "footer", {},
      element("p", {}, page.words.say("page.sides")) +
          element("p", {},
                  page.words.say("page.made-by", {{"version", page.graded.version},
                                                  {"submission", page.graded.submission}})));
}

}  // namespace

Markup told(const Page& page, const Written& written) {
  if (page.words.language() == written.language) return text(written.text);
  return element("span", {{"lang", written.language}}, written.text);
}

std::string student_html(const Graded& graded, std::string_view length_unit, const Words& words) {
  const Page page{graded, words, length_unit};
  const Markup judged_so_far =
      overview_section(page) + figures_section(page) + checks_section(page);
  const Markup how_to_film = not_shown_section(page) + films_section(page);
  const Markup main =
      work_section(page) +
      section("grade", words.say("grade.heading"), element("p", {}, grade_sentence(page))) +
      since_section(page) +
      // Who has to film again reads next how to.
      (graded.grade.percent ? judged_so_far + how_to_film : how_to_film + judged_so_far) +
      notes_section(page) + section("mind", words.say("mind.heading"), bullets(cautions(words)));
  return html::document(words.language(), html::head(title_line(page), policy, page_style()),
                        header(page) + element("main", {}, main) + footer(page));
}

}  // namespace rangecheck::report
