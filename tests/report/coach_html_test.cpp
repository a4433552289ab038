// SPDX-License-Identifier: MIT
// What the coach's page says; that it is well-formed and inert is for check_pages.py.
#include <doctest/doctest.h>

#include "example.hpp"

namespace rangecheck::report {
namespace {

std::size_t at(const std::string& page, const std::string& part) {
  const auto found = page.find(part);
  CAPTURE(part);
  REQUIRE(found != std::string::npos);
  return found;
}

Graded graded_as(const std::string& submission, std::optional<double> percent) {
  Graded one = example_graded();
  one.submission = submission;
  one.name = "Name of " + submission;
  one.grade.percent = percent;
  return one;
}

TEST_CASE("coach's page: who has to film again comes first, then the lowest grade") {
  const std::vector<Graded> all = {graded_as("s-1", 80), graded_as("s-2", std::nullopt),
                                   graded_as("s-3", 60)};
  const std::vector<SetAside> aside = {{"s-4", {Fault::unreadable, "is cut short", {}, "send it"}}};
  const std::string page = coach_text(all, aside);
  CHECK(at(page, "Name of s-2") < at(page, "Name of s-3"));
  CHECK(at(page, "Name of s-3") < at(page, "Name of s-1"));
  at(page, "<li>2 submissions were graded.</li>");
  at(page, "<li>One showed too little for a grade and has to be filmed again.</li>");
  at(page, "<li>One could not be worked through.</li>");
  at(page, "<b>s-4</b>: <span lang=\"en\">is cut short (send it)</span>");
}

TEST_CASE("coach's page: links lead to pages whatever the id") {
  const std::vector<Graded> all = {graded_as("Äpfel & co (2)", 80)};
  // RFC 3986, 2.1; Ä is C3 84 in UTF-8 (RFC 3629).
  at(coach_text(all, {}), "href=\"students/%C3%84pfel%20%26%20co%20%282%29/page.html\"");
}

TEST_CASE("coach's page: what is outside most often, of how many that could be judged") {
  const auto with = [](grade::Verdict verdict) {
    Graded one = graded_as("s", 70);
    one.grade.results = {length_result()};
    one.grade.results.front().verdict = verdict;
    one.grade.work_on = {};
    return one;
  };
  const std::vector<Graded> all = {with(grade::Verdict::low), with(grade::Verdict::low),
                                   with(grade::Verdict::high), with(grade::Verdict::inside),
                                   with(grade::Verdict::not_seen)};
  at(coach_text(all, {}),
     "<th scope=\"row\" data-key=\"Heel gap (p1)\">Heel gap (p1)</th><td data-key=\"3\">3</td>"
     "<td data-key=\"2\">2</td><td data-key=\"1\">1</td><td data-key=\"4\">4</td>");
  const std::vector<Graded> fine = {with(grade::Verdict::inside)};
  CHECK(coach_text(fine, {}).find("Most often outside") == std::string::npos);
}

TEST_CASE("coach's page: in German") {
  const std::vector<Graded> all = {graded_as("s-1", 80)};
  const std::string page = coach_text(all, {}, shipped_words("de"));
  at(page, "<html lang=\"de\">");
  at(page, "<h1>Deine Schüler</h1>");
  at(page, "<li>Eine Einsendung wurde bewertet.</li>");
}

TEST_CASE("coach's page: what waits is counted and listed, where anything does") {
  const std::vector<Graded> all = {graded_as("s-1", 80)};
  const auto page = [&](std::span<const SetAside> waiting, std::string_view language) {
    return *coach_html(entries_of(all), {}, waiting, shipped_words(language));
  };
  const SetAside half{"s-2-iron", {Fault::unreadable, "is cut <short>", {}, "send it again"}};
  CHECK(page({}, "en").find("arrived whole") == std::string::npos);
  const std::string one = page({&half, 1}, "en");
  at(one, "<li>One waits, since it may not have arrived whole.</li>");
  at(one, "is cut &lt;short&gt; (send it again)");
  at(page({&half, 1}, "de"), "<li>Eine wartet, weil sie vielleicht noch nicht ganz da ist.</li>");
}

}  // namespace
}  // namespace rangecheck::report
