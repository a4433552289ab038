// SPDX-License-Identifier: MIT
// The student as a stick figure from the film's own points, with what was measured and what is
// wanted. No name stands in it: it may be shown to others.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "report/figure_lines.hpp"
#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using html::element;
using html::Markup;
using html::text;

// Of the drawing, in its own units: the page scales it.
constexpr double figure_height = 400, margin = 14, letter_radius = 11;
constexpr std::size_t most_drawn = 3;
constexpr double apart = 40;  // angles whose corners are nearer hide each other

// A picture that stands off square shows an angle otherwise than it is. What differs by more than
// this, and by more than the value's own interval, is not drawn on it. Of our own.
const double agrees_within_rad = Angle::degrees(6).in_radians();

Spot on_circle(const Spot& middle, double radius, double direction) {
  return middle + radius * Spot{std::cos(direction), std::sin(direction)};
}

/// Collects shapes and the room that they take.
class Sketch {
 public:
  explicit Sketch(double scale) : scale_(scale) {}

  Spot place(const Spot& px) const { return scale_ * px; }
  double scaled(double px) const { return scale_ * px; }

  void line(const Spot& from, const Spot& to, std::string_view kind) {
    take(from);
    take(to);
    shapes_ += element("line",
                       {{"x1", n(from.x)},
                        {"y1", n(from.y)},
                        {"x2", n(to.x)},
                        {"y2", n(to.y)},
                        {"class", std::string(kind)}},
                       "");
  }
  void circle(const Spot& middle, double radius, std::string_view kind) {
    take(middle - Spot{radius, radius});
    take(middle + Spot{radius, radius});
    shapes_ += element(
        "circle",
        {{"cx", n(middle.x)}, {"cy", n(middle.y)}, {"r", n(radius)}, {"class", std::string(kind)}},
        "");
  }
  /// The piece of a disc, or with `open` of its edge, between two directions.
  void sector(const Spot& middle, double radius, double from, double to, bool open,
              std::string_view kind) {
    const Spot start = on_circle(middle, radius, from), end = on_circle(middle, radius, to);
    take(start);
    take(end);
    std::string path = fmt::format("M{} {}A{} {} 0 {} {} {} {}", n(start.x), n(start.y), n(radius),
                                   n(radius), std::abs(to - from) > std::numbers::pi ? 1 : 0,
                                   to > from ? 1 : 0, n(end.x), n(end.y));
    if (!open) path += fmt::format("L{} {}Z", n(middle.x), n(middle.y));
    shapes_ += element("path", {{"d", path}, {"class", std::string(kind)}}, "");
  }
  void letter(const Spot& middle, const std::string& letter) {
    circle(middle, letter_radius, "key");
    shapes_ += element("text",
                       {{"x", n(middle.x)},
                        {"y", n(middle.y + 4.5)},
                        {"text-anchor", "middle"},
                        {"class", "letter"}},
                       letter);
  }
  double bottom() const { return high_.y; }

  Markup svg(const std::string& alternative) const {
    const Spot from = low_ - Spot{margin, margin}, size = high_ - low_ + 2.0 * Spot{margin, margin};
    return element(
        "svg",
        {{"class", "golfer"},
         {"viewBox", fmt::format("{} {} {} {}", n(from.x), n(from.y), n(size.x), n(size.y))},
         {"role", "img"},
         {"aria-label", alternative}},
        shapes_);
  }

 private:
  void take(const Spot& spot) {
    low_ = {std::min(low_.x, spot.x), std::min(low_.y, spot.y)};
    high_ = {std::max(high_.x, spot.x), std::max(high_.y, spot.y)};
  }
  double scale_;
  Markup shapes_;
  Spot low_{1e9, 1e9}, high_{-1e9, -1e9};
};

void draw_body(Sketch& sketch, const Outline& outline) {
  for (const auto& bone : outline.bones) {
    const std::string_view kind = bone.club                  ? "club"
                                  : bone.side == Side::trail ? "bone trail"
                                                             : "bone";
    sketch.line(sketch.place(bone.from), sketch.place(bone.to), kind);
  }
  if (outline.head)
    sketch.circle(sketch.place(outline.head->middle), sketch.scaled(outline.head->radius), "bone");
  if (outline.ball) sketch.circle(sketch.place(*outline.ball), 4, "bone");
}

/// Limits of the band as differences from the value: the picture then shows how far it is to go,
/// whatever the camera's own angle adds.
struct ToGo {
  std::optional<double> lower, upper;
};
ToGo to_go(const CheckResult& result) {
  ToGo out{result.check.band.lower_si, result.check.band.upper_si};
  for (auto* limit : {&out.lower, &out.upper})
    if (*limit) **limit -= *result.value_si;
  return out;
}

void draw_fan(Sketch& sketch, const Fan& fan, const CheckResult& result, const std::string& key) {
  const Spot middle = sketch.place(fan.middle);
  const double radius = 1.12 * sketch.scaled(fan.radius);
  const auto [lower, upper] = to_go(result);
  const std::string kind = verdict_class(result);
  if (lower && upper)
    sketch.sector(middle, radius, fan.arm_with(*lower), fan.arm_with(*upper), false, "zone");
  for (const auto& limit : {lower, upper})
    if (limit) sketch.line(middle, on_circle(middle, radius, fan.arm_with(*limit)), "limit");
  sketch.line(middle, on_circle(middle, radius, fan.reference), "reference");
  sketch.line(middle, on_circle(middle, radius, fan.arm), "measured " + kind);
  const double turn = std::remainder(fan.arm - fan.reference, 2 * std::numbers::pi);
  sketch.sector(middle, 0.55 * radius, fan.reference, fan.reference + turn, true, "arc " + kind);
  sketch.letter(on_circle(middle, radius + 1.3 * letter_radius, fan.arm), key);
}

void draw_distance(Sketch& sketch, const std::pair<Spot, Spot>& ends, const CheckResult& result,
                   const std::string& key) {
  const double left = sketch.place(ends.first).x, right = sketch.place(ends.second).x;
  const double y = sketch.bottom() + 16, wanted_y = y + 16;
  const std::string kind = "measured " + verdict_class(result);
  sketch.line({left, y}, {right, y}, kind);
  for (const double x : {left, right}) sketch.line({x, y - 6}, {x, y + 6}, kind);
  sketch.letter({left - 1.5 * letter_radius, y}, key);
  // As long as the measured one is, in the picture, for its metres.
  const double a_metre = (right - left) / *result.value_si, middle = (left + right) / 2;
  const auto& [lower, upper] = result.check.band;
  const auto half = [&](double si) { return si * a_metre / 2; };
  if (lower && upper)
    for (const double side : {-1.0, 1.0})
      sketch.line({middle + side * half(*lower), wanted_y},
                  {middle + side * half(*upper), wanted_y}, "reach");
  for (const auto& limit : {lower, upper}) {
    if (!limit) continue;
    for (const double side : {-1.0, 1.0})
      sketch.line({middle + side * half(*limit), wanted_y - 6},
                  {middle + side * half(*limit), wanted_y + 6}, "limit");
  }
  const double inner = half(lower.value_or(upper.value_or(0)));
  sketch.line({middle - inner, wanted_y}, {middle + inner, wanted_y}, "limit");
}

const measure::Drawing* drawing_of(const Page& page, const CheckResult& result) {
  const auto* rule = rule_of(page.graded, result.check);
  return rule && rule->drawing ? &*rule->drawing : nullptr;
}

}  // namespace

bool can_draw(const Page& page, const Figure& figure, const CheckResult& result) {
  const auto* drawing = drawing_of(page, result);
  if (!drawing || drawing->view != figure.view || result.check.position != figure.position ||
      !judged(result) || !result.value_si)
    return false;
  if (ends_of(figure, *drawing)) return *result.value_si > 0;
  const auto fan = fan_of(figure, *drawing);
  if (!fan) return false;
  const double half = coverage_factor_95 * result.standard_uncertainty_si;
  return std::abs(fan->in_picture() - *result.value_si) <= std::max(half, agrees_within_rad);
}

Markup figure_picture(const Page& page, const Figure& figure, const Results& checks) {
  const Outline outline = outline_of(figure);
  if (outline.bones.empty()) return {};
  double top = 1e9, bottom = -1e9;
  for (const auto& bone : outline.bones) {
    if (bone.club) continue;
    top = std::min({top, bone.from.y, bone.to.y});
    bottom = std::max({bottom, bone.from.y, bone.to.y});
  }
  if (bottom <= top) return {};
  Sketch sketch(figure_height / (bottom - top));
  draw_body(sketch, outline);

  const auto& words = page.words;
  Markup key;
  std::vector<std::string> told;
  std::vector<Spot> taken;
  for (const CheckResult* result : checks) {
    if (told.size() == most_drawn || !can_draw(page, figure, *result)) continue;
    const auto* drawing = drawing_of(page, *result);
    const auto fan = fan_of(figure, *drawing);
    if (fan) {
      const Spot middle = sketch.place(fan->middle);
      const auto near = [&](const Spot& other) { return (other - middle).length() < apart; };
      if (std::ranges::any_of(taken, near)) continue;
      taken.push_back(middle);
    }
    const std::string letter(1, static_cast<char>('A' + told.size()));
    if (fan) {
      draw_fan(sketch, *fan, *result, letter);
    } else {
      draw_distance(sketch, *ends_of(figure, *drawing), *result, letter);
    }
    told.push_back(words.say("figures.check", {{"title", title_of(page, result->check)},
                                               {"measured", measured_text(page, *result)},
                                               {"wanted", wanted_text(page, result->check)}}));
    key += element("li", {},
                   element("b", {}, letter) + text(" " + told.back() + " ") +
                       element("span", {{"class", "verdict " + verdict_class(*result)}},
                               verdict_mark(page, *result)));
  }
  const std::string where = words.say(
      figure.view == intake::View::face_on ? "figures.face-on" : "figures.down-the-line",
      {{"when", words.say("positions." + std::string(id_of(figure.position)) + ".when")}});
  const std::string alternative =
      told.empty()
          ? words.say("figures.plain", {{"where", where}})
          : words.say("figures.with-checks", {{"where", where}, {"checks", listed(words, told)}});
  Markup caption = element("p", {}, where);
  if (!key.empty()) caption += element("ul", {}, key);
  return element("figure", {}, sketch.svg(alternative) + element("figcaption", {}, caption));
}

namespace {

/// What to draw at a position: what to work on, then what is outside, then the rest.
Results in_order_of_interest(const Page& page, Position position) {
  const grade::Grade& grade = page.graded.grade;
  Results ordered;
  const auto add = [&](const CheckResult& result) {
    if (result.check.position == position && std::ranges::find(ordered, &result) == ordered.end())
      ordered.push_back(&result);
  };
  for (const std::size_t index : grade.work_on) add(grade.results[index]);
  for (const auto& result : grade.results)
    if (outside(result)) add(result);
  for (const auto& result : grade.results) add(result);
  return ordered;
}

}  // namespace

Markup first_figure(const Page& page, const CheckResult& first) {
  for (const auto& figure : page.graded.figures)
    if (can_draw(page, figure, first)) return figure_picture(page, figure, {&first});
  return {};
}

Markup figures_section(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  Markup figures;
  for (const auto& figure : page.graded.figures) {
    const bool of_first = !grade.work_on.empty() &&
                          grade.results[grade.work_on.front()].check.position == figure.position;
    if (figure.position == Position::address || of_first)
      figures += figure_picture(page, figure, in_order_of_interest(page, figure.position));
  }
  if (figures.empty()) return {};
  return element("section", {{"aria-labelledby", "figures"}},
                 element("h2", {{"id", "figures"}}, page.words.say("figures.heading")) +
                     element("p", {{"class", "soft"}}, page.words.say("figures.about")) +
                     element("div", {{"class", "figures"}}, figures));
}

}  // namespace rangecheck::report
