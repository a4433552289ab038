// SPDX-License-Identifier: MIT
// The student's stick figure, and measures drawn on it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <regex>

#include "close.hpp"
#include "figure_example.hpp"
#include "report/figure_lines.hpp"
#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using intake::View;
using measure::Drawing;

/// A point of the golfer frame as a camera far away sees it, 500 pixels to the metre.
intake::ImagePoint seen(const measure::Placed& at, View view, bool left_handed) {
  const double across = view == View::face_on ? at.x : at.z;
  return {1000 + 500 * (left_handed ? -across : across), 1000 - 500 * at.y};
}

Figure figure_of(const measure::Rule& rule, std::span<const measure::Placed> points,
                 bool left_handed) {
  Figure figure{.position = Position::address,
                .view = rule.drawing->view,
                .points = {},
                .left_handed = left_handed};
  for (std::size_t i = 0; i < rule.needs.size(); ++i)
    figure.points[rule.needs[i]] = seen(points[i], rule.drawing->view, left_handed);
  return figure;
}

/// Whether the ends and corners of the drawing lie in one plane of the view, so that its picture
/// shows the measure as it is.
bool in_plane(const measure::Rule& rule, std::span<const measure::Placed> points) {
  std::vector<double> depths;
  for (const auto& corner : {rule.drawing->from, rule.drawing->to, rule.drawing->joint}) {
    if (corner.empty()) continue;
    double sum = 0;
    for (const LandmarkId id : corner) {
      const auto& at =
          points[static_cast<std::size_t>(std::ranges::find(rule.needs, id) - rule.needs.begin())];
      sum += rule.drawing->view == View::face_on ? at.z : at.x;
    }
    depths.push_back(sum / static_cast<double>(corner.size()));
  }
  return std::ranges::all_of(depths, [&](double one) { return std::abs(one - depths[0]) < 1e-12; });
}

TEST_CASE("figure: a rule is drawn as it measures, by its own worked examples, on either hand") {
  std::size_t rules = 0;
  for (const measure::Rule* rule : measure::catalogue()) {
    if (!rule->drawing) continue;
    ++rules;
    CAPTURE(rule->id);
    const auto form = rule->drawing->form;
    std::size_t checked = 0;
    for (const auto& example : rule->examples) {
      // A lean is that of the picture whatever lies in depth; the other forms need a plane.
      if (form != Drawing::Form::from_upright && !in_plane(*rule, example.points)) continue;
      for (const bool left_handed : {false, true}) {
        const Figure figure = figure_of(*rule, example.points, left_handed);
        if (form == Drawing::Form::distance) {
          const auto ends = ends_of(figure, *rule->drawing);
          REQUIRE(ends);
          CHECK_CLOSE((ends->second.x - ends->first.x) / 500, example.expected, 1e-9);
        } else {
          const auto fan = fan_of(figure, *rule->drawing);
          if (form == Drawing::Form::bend && example.expected < 1) {
            CHECK_FALSE(fan);  // to which side it would bend is not to be seen
            continue;
          }
          REQUIRE(fan);
          CHECK_CLOSE(fan->in_picture() / rad_per_deg, example.expected, 1e-6);
          // A line drawn for a greater value shows that value.
          Fan wanted = *fan;
          wanted.arm = fan->arm_with(0.1);
          CHECK_CLOSE(wanted.in_picture(), fan->in_picture() + 0.1, 1e-9);
        }
        ++checked;
      }
    }
    CHECK(checked >= 2);
  }
  CHECK(rules >= 8);
}

TEST_CASE("figure: a check is drawn where the picture shows it, and only there") {
  const Graded graded = example_graded();
  const Page page{graded, english(), "in"};
  const Figure figure = bent_golfer();
  CHECK(can_draw(page, figure, bend_result(30)));
  CHECK(can_draw(page, figure, bend_result(25)));
  // The picture shows 30 degrees: a value of 45 is not to be seen in it.
  CHECK_FALSE(can_draw(page, figure, bend_result(45)));
  Figure other = figure;
  other.view = View::face_on;
  CHECK_FALSE(can_draw(page, other, bend_result(30)));
  other = figure;
  other.position = Position::top;
  CHECK_FALSE(can_draw(page, other, bend_result(30)));
  other = figure;
  other.points[lead(Joint::shoulder)].reset();
  CHECK_FALSE(can_draw(page, other, bend_result(30)));
  auto unseen = bend_result(30);
  unseen.verdict = grade::Verdict::not_seen;
  CHECK_FALSE(can_draw(page, figure, unseen));
  CHECK_FALSE(can_draw(page, figure, length_result()));  // its rule says of no drawing
}

/// Direction of the line of a class in a drawing, in degrees from upright, rightward positive.
double lean_of(const std::string& svg, const std::string& kind, int which = 0) {
  const std::regex line(
      "<line x1=\"([0-9.-]+)\" y1=\"([0-9.-]+)\" x2=\"([0-9.-]+)\" y2=\"([0-9.-]+)\" class=\"" +
      kind + "\"");
  std::sregex_iterator found(svg.begin(), svg.end(), line);
  std::advance(found, which);
  const double dx = std::stod((*found)[3]) - std::stod((*found)[1]);
  const double dy = std::stod((*found)[4]) - std::stod((*found)[2]);
  return std::atan2(dx, -dy) / rad_per_deg;
}

TEST_CASE("figure: wanted lines lie as far from the golfer's own as the band is from the value") {
  const Graded graded = example_graded();
  const Page page{graded, english(), "in"};
  // Measured 27, wanted 35 to 45; the picture shows 30, so 38 to 48 are drawn.
  const auto result = bend_result(27);
  const auto svg = figure_picture(page, bent_golfer(), {&result}).code();
  CHECK_CLOSE(lean_of(svg, "measured out"), 30, 0.1);
  CHECK_CLOSE(lean_of(svg, "limit", 0), 38, 0.1);
  CHECK_CLOSE(lean_of(svg, "limit", 1), 48, 0.1);
  CHECK_CLOSE(lean_of(svg, "reference"), 0, 0.1);
  CHECK(svg.find("<b>A</b> Forward bend: 27 ± 4°, wanted 35 to 45°") != std::string::npos);
  CHECK(svg.find("aria-label=\"Stick figure of you. At address, seen from behind, along the target "
                 "line. Forward bend: 27 ± 4°, wanted 35 to 45°.\"") != std::string::npos);
}

TEST_CASE("figure: it holds no name and no id, and none is drawn of nothing") {
  Graded graded = example_graded();
  graded.figures = {bent_golfer()};
  const Page page{graded, english(), "in"};
  const auto picture = figures_section(page).code();
  CHECK(picture.find("<svg") != std::string::npos);
  for (const auto& secret : {graded.name, graded.student, graded.submission})
    CHECK(picture.find(secret) == std::string::npos);
  graded.figures = {Figure{.position = Position::address, .view = View::face_on, .points = {}}};
  CHECK(figures_section(page).empty());
}

TEST_CASE("figure: the page shows address, and the position of what to work on first") {
  Graded graded = example_swing();  // its main item is at the top
  Figure top = bent_golfer(), impact = bent_golfer();
  top.position = Position::top;
  impact.position = Position::impact;
  graded.figures = {bent_golfer(), top, impact};
  const Page page{graded, english(), "in"};
  const auto section = figures_section(page).code();
  CHECK(section.find("At address, seen from behind") != std::string::npos);
  CHECK(section.find("At the top, seen from behind") != std::string::npos);
  CHECK(section.find("At impact") == std::string::npos);
}

}  // namespace
}  // namespace rangecheck::report
