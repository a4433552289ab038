// SPDX-License-Identifier: MIT
// The student's HTML page; check_pages.py reads it with a parser that is not ours.
#include "report/student_html.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <regex>
#include <set>

#include "close.hpp"
#include "example.hpp"
#include "report/html.hpp"

namespace rangecheck::report {
namespace {

using grade::Verdict;

std::size_t count(const std::string& text, std::string_view part) {
  std::size_t found = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
  return found;
}

bool has(const std::string& text, std::string_view part) { return count(text, part) > 0; }

/// The text between tags, as one line.
std::string shown(const std::string& page) {
  const auto body = page.find("<body>");
  std::string text = std::regex_replace(page.substr(body), std::regex("<[^>]*>"), " ");
  return std::regex_replace(text, std::regex("\\s+"), " ");
}

TEST_CASE("html: text can't become anything else") {
  CHECK(html::escaped("<b a='1' c=\"2\">&amp;") ==
        "&lt;b a=&#39;1&#39; c=&quot;2&quot;&gt;&amp;amp;");
  CHECK(html::escaped("a\nb\x1b") == "a b\\x1b");
  const auto element = html::element("p", {{"title", "\"><i>"}}, "<i>");
  CHECK(element.code() == "<p title=\"&quot;&gt;&lt;i&gt;\">&lt;i&gt;</p>");
}

TEST_CASE("html page: it stands alone, says its language and lets nothing in") {
  for (const auto language : shipped_languages()) {
    const auto page = student_html(example_swing(), "in", shipped_words(language));
    CHECK(has(page, "<html lang=\"" + std::string(language) + "\">"));
    CHECK(has(page, "default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;"));
    for (const auto* outside :
         {"http://", "https://", "url(", "@import", "<script", " src=", " href="})
      CHECK_FALSE(has(page, outside));
  }
}

TEST_CASE("html page: one thing first, with why, aim, drill and caution") {
  const auto page = student_html(example_graded());
  const auto text = shown(page);
  const auto first = text.find("Work on first");
  CHECK(first < text.find(" Grade "));
  CHECK(has(text, "Heel gap: 11.0 ± 1.0 in"));
  for (const auto* part :
       {"wanted 14 to 15 in",
        "Why A narrow base lets you sway. It may well be behind your shoulder tilt too.",
        "Aim Heels as far apart as your hips.", "Drill Set a club between your heels.",
        "Careful Widen only as far as your hips like."}) {
    CAPTURE(part);
    CHECK(has(text, part));
    CHECK(text.find(part) < text.find(" Grade "));
  }
}

TEST_CASE("html page: it says what the text page says") {
  for (const auto& graded :
       {example_graded(), example_without_grade(), example_swing(), example_address_of_swing()}) {
    const auto text = shown(student_html(graded));
    const Page page{graded, english(), "in"};
    const auto said = [&](const std::string& sentence) {
      CAPTURE(sentence);
      CHECK(has(text, html::escaped(sentence)));
    };
    said(grade_sentence(page));
    for (const auto& note : film_notes(graded, english())) said(note);
    for (const auto& [limit, because, changes] : judged_notes(page)) {
      said(limit.text);
      said(because.text);
      said(changes);
    }
    for (const auto& caution : cautions(english())) said(caution);
    for (const auto& item : film_advice(page).items) said(item);
    for (const auto& group : not_shown(page)) {
      said(group.remedy);
      for (const auto& one : group.hidden) said(one.reason + ": " + one.names);
    }
    for (const auto& result : graded.grade.results) {
      if (!judged(result)) continue;
      said(title_of(page, result.check));
      said(measured_text(page, result));
      said(verdict_text(page, result));
    }
  }
}

TEST_CASE("html page: of a swing, what is not outside is folded away and counted") {
  const auto page = student_html(example_swing());
  CHECK(has(page, "<summary>2 more checks: 2 good</summary>"));
  CHECK(has(page, "<summary>All 2 checks: 1 good and 1 can&#39;t tell</summary>"));
  // Nothing that is outside is hidden.
  CHECK(count(std::regex_replace(page, std::regex("<details>.*?</details>"), ""), "↑ too high") ==
        0);
  const auto open = std::regex_replace(page, std::regex("<details>.*?</details>"), "");
  CHECK(has(open, "too high"));
  CHECK_FALSE(has(student_html(example_graded()), "<details>"));
}

TEST_CASE("html page: without a grade it asks for films and gives no advice") {
  const auto text = shown(student_html(example_without_grade()));
  CHECK(has(text, "Film again first"));
  CHECK(has(text, "No grade this time"));
  CHECK_FALSE(has(text, "Drill"));
  CHECK(text.find("What the films could not show") < text.find("From the ground up"));
  const auto graded = shown(student_html(example_graded()));
  CHECK(graded.find("What the films could not show") > graded.find("From the ground up"));
}

TEST_CASE("html page: what other rooms tell is said in the language of the page") {
  Graded graded = example_graded();
  graded.notes = {{"people.upside-down", {{"frames", std::size_t{2}}, {"all", std::size_t{90}}}}};
  graded.grade.results.push_back(unseen_result("hip-hinge", "Hip hinge"));
  graded.grade.results.back().reason = {"reason.nothing-shows",
                                        {said("points", name_as_message(lead(Joint::hip)))}};
  graded.grade.results.back().remedy = {"remedy.in-plain-sight",
                                        {said("point", name_as_message(lead(Joint::hip)))}};
  const auto page = student_html(graded, "in", shipped_words("de"));
  CHECK(has(page, "in 2 von 90 Bildern hatte das Erkennungsprogramm den Golfer auf dem Kopf"));
  CHECK(has(page, "nichts zeigt: Hüfte vorn"));
  CHECK(has(page, "Film noch einmal so, dass das gut zu sehen ist: Hüfte vorn"));
  CHECK(has(student_html(graded), "film again with the lead hip in plain sight"));
}

TEST_CASE("band picture: place, interval and band are where the numbers are") {
  const Graded graded = example_graded();
  const Page page{graded, english(), "in"};
  const auto picture = band_picture(page, graded.grade.results[0]).code();
  // 11.0 ± 0.98 in and a band of 14 to 15: from 10.02 to 15, with a quarter more at each side.
  std::smatch found;
  REQUIRE(std::regex_search(picture, found,
                            std::regex("<rect x=\"([0-9.]+)\" y=\"[0-9.]+\" width=\"([0-9.]+)\"")));
  const double half = 1.959964 * 0.5, low = 11 - half, more = (15 - low) / 4;
  const auto at = [&](double inches) {
    return 9 + 302 * (inches - low + more) / (15 - low + 2 * more);
  };
  CHECK_CLOSE(std::stod(found[1]), at(14), 0.06);
  CHECK_CLOSE(std::stod(found[2]), at(15) - at(14), 0.06);
  REQUIRE(std::regex_search(
      picture, found,
      std::regex(
          "<line x1=\"([0-9.]+)\" y1=\"10.0\" x2=\"([0-9.]+)\" y2=\"10.0\" class=\"interval\"")));
  CHECK_CLOSE(std::stod(found[1]), at(11 - half), 0.06);
  CHECK_CLOSE(std::stod(found[2]), at(11 + half), 0.06);
  CHECK(has(
      picture,
      "aria-label=\"Heel gap drawn on its scale: 11.0 ± 1.0 in, wanted 14 to 15 in, too low\""));
  CHECK(has(picture, ">14</text>"));
  CHECK(has(picture, ">15</text>"));
}

TEST_CASE(
    "band picture: an open side reaches the edge, a word has no picture, verdicts have shapes") {
  const Graded graded = example_graded();
  const Page page{graded, english(), "in"};
  CHECK(has(band_picture(page, graded.grade.results[1]).code(), "<rect x=\"9.0\""));
  CHECK(band_picture(page, observed_result()).empty());
  CHECK(band_picture(page, unseen_result("hip-turn", "Hip line")).empty());
  const auto shape = [&](Verdict verdict) {
    const auto code = band_picture(page, angle_result(verdict)).code();
    std::smatch found;
    return std::regex_search(code, found, std::regex("<(circle|path) [^>]*class=\"point\"[^>]*>"))
               ? found.str()
               : std::string();
  };
  CHECK(shape(Verdict::inside) != shape(Verdict::low));
  CHECK(shape(Verdict::low) != shape(Verdict::high));
  CHECK(shape(Verdict::high) != shape(Verdict::unsure));
}

/// WCAG 2.2, "relative luminance" (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance).
double luminance(const std::string& hex) {
  double out = 0;
  constexpr double share[] = {0.2126, 0.7152, 0.0722};
  for (int i = 0; i < 3; ++i) {
    const double c = std::stoi(hex.substr(2 * static_cast<std::size_t>(i), 2), nullptr, 16) / 255.0;
    out += share[i] * (c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
  }
  return out;
}

/// WCAG 2.2, "contrast ratio".
double contrast(const std::string& one, const std::string& other) {
  const double a = luminance(one), b = luminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

TEST_CASE("contrast: the formula gives WCAG's own figures") {
  CHECK_CLOSE(contrast("000000", "ffffff"), 21, 1e-9);
  // The lightest grey that is enough for text on white, known from WCAG's techniques.
  CHECK(contrast("767676", "ffffff") >= 4.5);
  CHECK(contrast("777777", "ffffff") < 4.5);
}

TEST_CASE("colours: light, dark and print reach WCAG 2.2 AA, and data has Okabe and Ito's") {
  const std::string rules(page_style());
  std::vector<std::map<std::string, std::string>> schemes;
  const std::regex root(":root \\{[^}]*\\}"), colour("--([a-z]+): #([0-9a-f]{6})");
  for (std::sregex_iterator block(rules.begin(), rules.end(), root), end; block != end; ++block) {
    const std::string inside = block->str();
    auto& scheme = schemes.emplace_back();
    for (std::sregex_iterator each(inside.begin(), inside.end(), colour); each != end; ++each)
      scheme[(*each)[1]] = (*each)[2];
  }
  REQUIRE(schemes.size() == 3);
  // Okabe and Ito, Color Universal Design, 2008: bluish green, blue, sky blue, vermillion, orange.
  const std::set<std::string> published{"009e73", "0072b2", "56b4e9", "d55e00", "e69f00"};
  for (const auto& scheme : schemes) {
    for (const auto* ground : {"paper", "panel"}) {
      CAPTURE(ground);
      for (const auto* words : {"ink", "soft"})  // 1.4.3, text
        CHECK(contrast(scheme.at(words), scheme.at(ground)) >= 4.5);
      for (const auto* data : {"in", "you", "out"}) {  // 1.4.11, graphics
        CAPTURE(data);
        CHECK(contrast(scheme.at(data), scheme.at(ground)) >= 3);
        CHECK(published.contains(scheme.at(data)));
      }
    }
  }
}

}  // namespace
}  // namespace rangecheck::report
