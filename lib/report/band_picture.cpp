// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using grade::CheckResult;
using grade::Verdict;
using html::element;
using html::Markup;

// Of the drawing, in its own units; the page scales it.
constexpr double width = 320, height = 42, edge = 9;
constexpr double value_y = 10, band_y = 22, band_height = 6, label_y = 40;

/// From the numbers that are to be seen to places along the drawing.
class Scale {
 public:
  explicit Scale(const CheckResult& result) {
    const double half = coverage_factor_95 * result.standard_uncertainty_si;
    low_ = *result.value_si - half;
    high_ = *result.value_si + half;
    const auto& [lower, upper] = result.check.band;
    for (const auto& limit : {lower, upper}) {
      if (!limit) continue;
      low_ = std::min(low_, *limit);
      high_ = std::max(high_, *limit);
    }
    // An open side of the band goes on to the edge, and is to be seen to do so.
    const double more = std::max((high_ - low_) / 4, result.check.fade_si / 2);
    low_ -= more;
    high_ += more;
  }
  double at(double si) const { return edge + (width - 2 * edge) * (si - low_) / (high_ - low_); }

 private:
  double low_, high_;
};

Markup label(double x, const std::string& words) {
  return element("text", {{"x", n(x)}, {"y", n(label_y)}, {"text-anchor", "middle"}}, words);
}

/// Limits too near to each other for two labels have one.
Markup limit_labels(const Page& page, const CheckResult& result, const Scale& scale) {
  const Unit& unit = shown_unit(result.check, page.length_unit);
  const auto& [lower, upper] = result.check.band;
  constexpr double room = 34;
  if (lower && upper && scale.at(*upper) - scale.at(*lower) < room)
    return label(
        (scale.at(*lower) + scale.at(*upper)) / 2,
        page.words.say("numbers.between", {{"lower", limit_text(page.words, *lower, unit)},
                                           {"upper", limit_text(page.words, *upper, unit)}}));
  Markup out;
  for (const auto& limit : {lower, upper})
    if (limit) out += label(scale.at(*limit), limit_text(page.words, *limit, unit));
  return out;
}

/// A shape of its own for each verdict.
Markup point(double x, const CheckResult& result) {
  const double y = value_y;
  std::string path;
  switch (result.verdict) {
    case Verdict::low:  // points to where it is
      path = fmt::format("M{} {}L{} {}L{} {}Z", n(x - 6), n(y), n(x + 4), n(y - 5.5), n(x + 4),
                         n(y + 5.5));
      break;
    case Verdict::high:
      path = fmt::format("M{} {}L{} {}L{} {}Z", n(x + 6), n(y), n(x - 4), n(y - 5.5), n(x - 4),
                         n(y + 5.5));
      break;
    case Verdict::unsure:
      path = fmt::format("M{} {}L{} {}L{} {}L{} {}Z", n(x - 5.5), n(y), n(x), n(y - 5.5),
                         n(x + 5.5), n(y), n(x), n(y + 5.5));
      break;
    default:
      return element("circle", {{"cx", n(x)}, {"cy", n(y)}, {"r", "5"}, {"class", "point"}}, "");
  }
  return element("path", {{"d", path}, {"class", "point"}}, "");
}

}  // namespace

std::string n(double value) { return fmt::format("{:.1f}", value); }

Markup line(double x1, double y1, double x2, double y2, std::string_view kind) {
  return element(
      "line",
      {{"x1", n(x1)}, {"y1", n(y1)}, {"x2", n(x2)}, {"y2", n(y2)}, {"class", std::string(kind)}},
      "");
}

Markup band_picture(const Page& page, const CheckResult& result) {
  if (!result.value_si || !judged(result)) return {};
  const Scale scale(result);
  const auto& [lower, upper] = result.check.band;
  const double from = lower ? scale.at(*lower) : edge, to = upper ? scale.at(*upper) : width - edge;
  Markup inside = line(edge, band_y, width - edge, band_y, "axis");
  inside += element("rect",
                    {{"x", n(from)},
                     {"y", n(band_y - band_height / 2)},
                     {"width", n(std::max(to - from, 1.0))},
                     {"height", n(band_height)},
                     {"class", "band"}},
                    "");
  const double half = coverage_factor_95 * result.standard_uncertainty_si;
  const double low = scale.at(*result.value_si - half), high = scale.at(*result.value_si + half);
  inside += line(low, value_y, high, value_y, "interval") +
            line(low, value_y - 4, low, value_y + 4, "interval") +
            line(high, value_y - 4, high, value_y + 4, "interval");
  inside += point(scale.at(*result.value_si), result) + limit_labels(page, result, scale);
  const std::string alternative =
      page.words.say("figures.band", {{"title", title_of(page, result.check)},
                                      {"measured", measured_text(page, result)},
                                      {"wanted", wanted_text(page, result.check)},
                                      {"verdict", verdict_text(page, result)}});
  return element("svg",
                 {{"class", "scale " + verdict_class(result)},
                  {"viewBox", fmt::format("0 0 {} {}", width, height)},
                  {"role", "img"},
                  {"aria-label", alternative}},
                 inside);
}

}  // namespace rangecheck::report
