// SPDX-License-Identifier: MIT
// One value from films to films, with its 95 % intervals over the band that was wanted.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using grade::Verdict;
using history::Course;
using history::Reading;
using html::element;
using html::Markup;

// Of the drawing, in its own units; the page scales it.
constexpr double width = 320, height = 168, left = 36, right = 316, top = 22, bottom = 142;
constexpr double label_y = 161, label_height = 13;
/// More than these can't be told apart on a phone; earlier ones are left out.
constexpr std::size_t most_points = 8;
/// More than these have no room for the unit at each but the last, nor for the day under each.
constexpr std::size_t most_long_labels = 3;

/// A value to be drawn: that of a check, or of the grade where there is none.
struct Drawn {
  std::string title;
  const grade::CheckResult* check = nullptr;
  std::vector<Reading> readings;  ///< in order of time
  Unit unit;
};

struct Interval {
  double low, high;
};

/// 95 %; of a grade, what there is of it between nothing and all.
Interval interval_of(const Drawn& drawn, const Reading& one) {
  const double half = coverage_factor_95 * one.standard_uncertainty_si;
  const Interval all{one.value_si - half, one.value_si + half};
  return drawn.check ? all : Interval{std::max(all.low, 0.0), std::min(all.high, 1.0)};
}

/// From values and places in order to places in the drawing.
class Scale {
 public:
  explicit Scale(const Drawn& drawn) : count_(drawn.readings.size()) {
    low_ = high_ = drawn.readings.front().value_si;
    for (const auto& one : drawn.readings) {
      const auto [low, high] = interval_of(drawn, one);
      take(low);
      take(high);
      for (const auto& limit : {one.band.lower_si, one.band.upper_si})
        if (limit) take(*limit);
    }
    // An open side of the band goes on to the edge, and is to be seen to do so.
    const double more = (high_ - low_) / 8;
    low_ -= more;
    high_ += more;
  }
  double step() const { return (right - left) / static_cast<double>(count_); }
  double x(std::size_t place) const { return left + (static_cast<double>(place) + 0.5) * step(); }
  double y(double si) const { return bottom - (bottom - top) * (si - low_) / (high_ - low_); }

 private:
  void take(double si) {
    low_ = std::min(low_, si);
    high_ = std::max(high_, si);
  }
  std::size_t count_;
  double low_ = 0, high_ = 0;
};

Markup label(double x, double y, std::string_view anchor, const std::string& words) {
  return element("text", {{"x", n(x)}, {"y", n(y)}, {"text-anchor", std::string(anchor)}}, words);
}

/// What was wanted each time, so that a band that was moved is seen to have moved.
Markup bands(const Drawn& drawn, const Scale& scale) {
  Markup out;
  for (std::size_t i = 0; i < drawn.readings.size(); ++i) {
    const auto& [lower, upper] = drawn.readings[i].band;
    if (!lower && !upper) continue;
    const double from = upper ? scale.y(*upper) : top, to = lower ? scale.y(*lower) : bottom;
    const double x = scale.x(i) - scale.step() / 2;
    out += element("rect",
                   {{"x", n(x)},
                    {"y", n(from)},
                    {"width", n(scale.step())},
                    {"height", n(std::max(to - from, 1.0))},
                    {"class", "zone"}},
                   "");
    for (const auto& limit : {lower, upper})
      if (limit) out += line(x, scale.y(*limit), x + scale.step(), scale.y(*limit), "limit");
  }
  return out;
}

/// The limits of today's band beside it; labels of two that are near are moved apart.
Markup limit_labels(const Page& page, const Drawn& drawn, const Scale& scale) {
  const auto& [lower, upper] = drawn.readings.back().band;
  constexpr double beside = left - 4, to_middle = 4.5;
  double apart = 0;
  if (lower && upper) apart = std::max(0.0, label_height - (scale.y(*lower) - scale.y(*upper))) / 2;
  const auto at = [&](double si, double down) {
    return label(beside, scale.y(si) + to_middle + down, "end",
                 limit_text(page.words, si, drawn.unit));
  };
  Markup out;
  if (lower) out += at(*lower, apart);
  if (upper) out += at(*upper, -apart);
  return out;
}

/// A shape of its own for each verdict: a triangle points to where the value lies off.
Markup mark(double x, double y, Verdict verdict) {
  const auto path = [&](std::initializer_list<std::pair<double, double>> corners) {
    std::string d;
    for (const auto& [dx, dy] : corners)
      d += fmt::format("{}{} {}", d.empty() ? 'M' : 'L', n(x + dx), n(y + dy));
    return element("path", {{"d", d + "Z"}, {"class", "point"}}, "");
  };
  switch (verdict) {
    case Verdict::low:
      return path({{0, 7}, {-6.5, -4}, {6.5, -4}});
    case Verdict::high:
      return path({{0, -7}, {-6.5, 4}, {6.5, 4}});
    case Verdict::unsure:
      return path({{0, -6.5}, {6.5, 0}, {0, 6.5}, {-6.5, 0}});
    default:
      return element("circle", {{"cx", n(x)}, {"cy", n(y)}, {"r", "5.5"}, {"class", "point"}}, "");
  }
}

/// A grade has no verdict: its mark is a filled circle.
Verdict shape_of(const Drawn& drawn, const Reading& reading) {
  return drawn.check ? reading.verdict : Verdict::inside;
}

Markup points(const Page& page, const Drawn& drawn, const Scale& scale) {
  Markup out;
  constexpr double cap = 5, above = 5;
  for (std::size_t i = 0; i < drawn.readings.size(); ++i) {
    const Reading& one = drawn.readings[i];
    const auto interval = interval_of(drawn, one);
    const double x = scale.x(i), y = scale.y(one.value_si), high = scale.y(interval.high),
                 low = scale.y(interval.low);
    if (i > 0) out += line(scale.x(i - 1), scale.y(drawn.readings[i - 1].value_si), x, y, "course");
    const Verdict verdict = shape_of(drawn, one);
    out +=
        element("g", {{"class", verdict_class(verdict)}},
                line(x, high, x, low, "interval") + line(x - cap, high, x + cap, high, "interval") +
                    line(x - cap, low, x + cap, low, "interval") + mark(x, y, verdict));
    const std::string number = digits(page.words, shown(one.value_si, drawn.unit), drawn.unit);
    const bool is_last = i + 1 == drawn.readings.size();
    const bool room = is_last || drawn.readings.size() <= most_long_labels;
    out += label(x, high - above, "middle",
                 room ? with_symbol(page.words, number, drawn.unit) : number);
  }
  return out;
}

const history::Record& record_of(const Page& page, const Reading& reading) {
  return page.graded.course.submissions[reading.submission].record;
}

/// The days where there is room, else the first and the last.
Markup days(const Page& page, const Drawn& drawn, const Scale& scale) {
  Markup out;
  const std::size_t count = drawn.readings.size();
  const auto day = [&](std::size_t i) {
    return day_of(record_of(page, drawn.readings[i]).received);
  };
  if (count <= most_long_labels) {
    for (std::size_t i = 0; i < count; ++i) out += label(scale.x(i), label_y, "middle", day(i));
    return out;
  }
  return label(left, label_y, "start", day(0)) + label(right, label_y, "end", day(count - 1));
}

/// The same in words.
std::string in_words(const Page& page, const Drawn& drawn) {
  std::string text;
  for (const auto& one : drawn.readings) {
    // Not when it was recorded, which differs from run to run.
    std::string day = day_of(record_of(page, one).received);
    if (day.empty()) day = page.words.say("since.no-such-day");
    const std::string measured =
        with_interval(page.words, one.value_si, one.standard_uncertainty_si, drawn.unit);
    if (!text.empty()) text += "; ";
    text += drawn.check
                ? page.words.say("since.point",
                                 {{"day", day},
                                  {"measured", measured},
                                  {"verdict", verdict_text(page, drawn.check->check, one.verdict)}})
                : page.words.say("since.point-of-grade", {{"day", day}, {"measured", measured}});
  }
  text += ".";
  if (drawn.check)
    text +=
        " " + page.words.say("since.wanted", {{"wanted", wanted_text(page, drawn.check->check)}});
  return text;
}

Markup picture(const Page& page, const Drawn& drawn, std::size_t number) {
  const Scale scale(drawn);
  const std::string title_id = fmt::format("course-{}", number), text_id = title_id + "-text";
  Markup inside = element("title", {{"id", title_id}},
                          page.words.say("since.picture", {{"title", drawn.title}})) +
                  element("desc", {{"id", text_id}}, in_words(page, drawn));
  inside += bands(drawn, scale) + line(left, bottom, right, bottom, "axis") +
            limit_labels(page, drawn, scale) + points(page, drawn, scale) +
            days(page, drawn, scale);
  const Markup svg = element("svg",
                             {{"class", "course-picture"},
                              {"viewBox", fmt::format("0 0 {} {}", width, height)},
                              {"role", "img"},
                              {"aria-labelledby", title_id + " " + text_id}},
                             inside);
  return element("figure", {}, element("figcaption", {}, element("p", {}, drawn.title)) + svg);
}

void add_check(const Page& page, const std::string& id, std::vector<Drawn>& out) {
  const auto& results = page.graded.grade.results;
  const auto& all = page.graded.course.checks;
  const auto result = std::ranges::find_if(
      results, [&](const grade::CheckResult& one) { return one.check.id == id; });
  const auto series =
      std::ranges::find_if(all, [&](const auto& one) { return one.check.id == id; });
  if (result == results.end() || series == all.end() || !series->since_last) return;
  if (std::ranges::any_of(out, [&](const Drawn& one) { return one.check == &*result; })) return;
  out.push_back({titled(page, result->check), &*result, series->readings,
                 shown_unit(result->check, page.length_unit)});
}

/// What is drawn: the first thing to work on now, that of last time, the grade.
std::vector<Drawn> all_drawn(const Page& page) {
  const grade::Grade& grade = page.graded.grade;
  const Course& course = page.graded.course;
  std::vector<Drawn> out;
  if (course.submissions.size() < 2) return out;
  if (!grade.work_on.empty()) add_check(page, grade.results[grade.work_on.front()].check.id, out);
  const auto& tasks = course.submissions[course.submissions.size() - 2].record.work_on;
  if (!tasks.empty()) add_check(page, tasks.front(), out);
  if (auto grades = history::comparable_grades(course); grades.size() > 1)
    out.push_back({page.words.say("grade.heading"), nullptr, std::move(grades), *find_unit("%")});
  for (auto& drawn : out)
    if (drawn.readings.size() > most_points)
      drawn.readings.erase(drawn.readings.begin(), drawn.readings.end() - most_points);
  return out;
}

}  // namespace

Markup progress_pictures(const Page& page) {
  Markup pictures;
  std::size_t number = 0;
  for (const auto& drawn : all_drawn(page)) pictures += picture(page, drawn, ++number);
  if (pictures.empty()) return {};
  return element("div", {{"class", "courses"}}, pictures) +
         element("p", {{"class", "soft"}}, page.words.say("since.about"));
}

}  // namespace rangecheck::report
