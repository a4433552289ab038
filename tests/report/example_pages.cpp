// SPDX-License-Identifier: MIT
// Prints students' pages and the coach's in which everything that may come from people's files is
// one text, as JSON: the texts, each with its page. For check_pages.py.
#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/message.hpp"
#include "course_example.hpp"
#include "figure_example.hpp"

namespace rangecheck::report {
namespace {

constexpr std::string_view harmless = "harmless";

// Each tries to get out of a text, an attribute, a title, a style or a drawing.
constexpr std::string_view attacks[] = {
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "' onmouseover='alert(1)",
    "\" autofocus onfocus=\"alert(1)",
    "</title><script>alert(1)</script>",
    "</style><script>alert(1)</script>",
    "<!-- ",
    "--><script>alert(1)</script><!--",
    "<svg onload=alert(1)>",
    "</svg><script>alert(1)</script>",
    "</text></svg><foreignObject><body onload=alert(1)>",
    "<![CDATA[<script>alert(1)</script>]]>",
    "&lt;script&gt;alert(1)&lt;/script&gt;",
    "&#60;script&#62;alert(1)&#60;/script&#62;",
    "&quot; onclick=&quot;alert(1)",
    "<a href=\"javascript:alert(1)\">click</a>",
    "<iframe srcdoc=\"<script>alert(1)</script>\"></iframe>",
    "<meta http-equiv=refresh content=\"0;url=//example.org\">",
    "<base href=//example.org>",
    "<link rel=stylesheet href=//example.org/a.css>",
    "<form action=//example.org><input name=a><button>",
    "<math><mtext></mtext><style><img src=x onerror=alert(1)></style></math>",
    "<details open ontoggle=alert(1)>",
    "</main></body></html><script>alert(1)</script>",
    "</details></li></ul></section><h1>mine</h1>",
    "{measured} {{7*7}} ${7*7}",
    "a\n<b onclick=alert(1)>\r\n",
    "\x01<b>\x7f</b>",
    "\xff\xfe<b>\xc0\xbc/b>",
    "\xe2\x80\xae<b>evil</b>",
    "`onerror=alert(1)` =<x y=z",
};

void fill(grade::CheckResult& result, const std::string& with) {
  auto& check = result.check;
  check.title = with;
  if (check.subject == grade::Subject::observed) result.word = with;
  for (auto& word : check.accept) word = with;
  check.words = {.low = with, .high = with, .inside = with, .drill = with, .caution = with};
  // One place each, so that what is grouped by these stays so.
  if (!result.reason.empty()) result.reason = as_written(with);
  if (!result.remedy.empty()) result.remedy = as_written(with);
  if (!result.value_si) return;
  result.note = as_written(with);
  result.category = with;
}

/// Earlier submissions from a history in which everything is `with`, one value and the grade
/// changed enough to be told.
Graded with_course(Graded graded, const std::string& with) {
  const auto fill_record = [&](history::Record& record) {
    record.version = with;
    if (record.percent) record.percent = *record.percent - 40;
    for (auto& check : record.checks) {
      check.title = check.unit = with;
      if (!check.value_si) continue;
      *check.value_si -= 20 * check.standard_uncertainty_si;
      check.band.lower_si = *check.value_si;
    }
  };
  const std::string day = graded.received;
  const auto earlier = earlier_record(graded, with + "1", day, fill_record);
  return after(std::move(graded), {earlier});
}

Graded filled(Graded graded, const std::string& with) {
  graded.submission = graded.student = graded.name = with;
  graded.club = graded.swing = graded.version = with;
  graded.received = with == harmless ? "harm" : with;  // a page shows ten letters of it
  graded.notes = {as_written(with), as_written(with)};
  graded.findings = {
      {.refuses = false,
       .source = as_written(with),
       .text = as_written(with),
       .remedy = as_written(with)},
  };
  graded.figures = {bent_golfer()};
  auto& grade = graded.grade;
  grade.results.push_back(bend_result(30));
  grade.profile_title = grade.profile_id = with;
  grade.notes = {as_written(with)};
  for (auto& change : grade.changes) change.limit = change.because = change.whose = with;
  for (auto& result : grade.results) fill(result, with);
  for (auto& one : grade.not_found) one.reason = one.remedy = as_written(with);
  for (auto& film : graded.films) {
    for (auto& one : film.judged) {
      one.verdict = grade::FilmVerdict::poor;
      one.detail = as_written(with);
      one.criterion.title = one.criterion.when_poor = one.criterion.advice = with;
    }
  }
  return with_course(std::move(graded), with);
}

nlohmann::json pages_with(const Graded& example, const std::string& with) {
  const Graded graded = filled(example, with);
  SetAside set_aside;
  set_aside.submission = set_aside.error.what = set_aside.error.remedy = with;
  set_aside.error.where.file = set_aside.error.where.key = with;
  return {{"text", with},
          {"page", student_html(graded, "in", shipped_words("de")) + student_html(graded)},
          {"coachs", coach_text({&graded, 1}, {&set_aside, 1})}};
}

}  // namespace
}  // namespace rangecheck::report

int main() {
  using namespace rangecheck::report;
  nlohmann::json all = nlohmann::json::array();
  const auto add = [&](std::string_view text) {
    for (const auto& graded : {example_graded(), example_without_grade(), example_swing()})
      all.push_back(pages_with(graded, std::string(text)));
  };
  add(harmless);
  for (const auto attack : attacks) add(attack);
  const auto text = all.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  std::fwrite(text.data(), 1, text.size(), stdout);
}
