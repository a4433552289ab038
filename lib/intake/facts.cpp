// SPDX-License-Identifier: MIT
#include "intake/facts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"

namespace rangecheck::intake {
namespace {

/// A shoe-size system as a formula: foot length = (size + offset) · step, with `half_interval` on
/// either side, since a whole size stands for all lengths nearer to it than to the next.
struct ShoeSystem {
  std::string_view name;
  std::string_view short_name;
  double offset;
  Length step;
  Length half_interval;
};

// UK = 3 L_in − 23, US men = 3 L_in − 22, EU = 1.5 (L_cm + 1.5), L the length of the foot: the
// adult formulas common on conversion tables. For US women these give −21 and −20.5: half way
// between, with a quarter of a size added to the interval. Mondopoint is the length itself, in 5 mm
// steps (ISO 9407).
constexpr Length third_of_an_inch = Length::inches(1.0 / 3);
constexpr std::array<ShoeSystem, 5> systems = {{
    {"mondopoint", "mp", 0, Length::millimetres(1), Length::millimetres(2.5)},
    {"eu", "eur", -2.25, Length::centimetres(1 / 1.5), Length::centimetres(0.5 / 1.5)},
    {"uk", "gb", 23, third_of_an_inch, third_of_an_inch * 0.5},
    {"us-men", "us-m", 22, third_of_an_inch, third_of_an_inch * 0.5},
    {"us-women", "us-w", 20.75, third_of_an_inch, third_of_an_inch * 0.75},
}};

/// How far makers differ at one size; common practice, no source.
constexpr Length maker_uncertainty = Length::millimetres(3);
constexpr Length shortest_foot = Length::millimetres(150);
constexpr Length longest_foot = Length::millimetres(350);
// A hair wider than 0.9 m to 2.3 m, so that 230 cm isn't above 2.3 m by rounding.
constexpr Length smallest_stature = Length::metres(0.9 - 1e-9);
constexpr Length largest_stature = Length::metres(2.3 + 1e-9);

Error bad(std::string what, std::string remedy) {
  return {Fault::bad_value, std::move(what), {}, std::move(remedy)};
}

}  // namespace

Result<FootLength> foot_length(std::string_view system, double size) {
  const std::string wanted = kebab(system);
  const auto found = std::find_if(systems.begin(), systems.end(), [&](const ShoeSystem& s) {
    return s.name == wanted || s.short_name == wanted;
  });
  if (found == systems.end()) {
    return bad(rangecheck::quoted(system) + " isn't a shoe-size system that is known",
               "use mondopoint, eu, uk, us-men or us-women");
  }
  const Length length = found->step * (size + found->offset);
  if (!(length >= shortest_foot && length <= longest_foot)) {
    return bad(fmt::format("{} {} would be a foot of {:.0f} mm, outside 150 mm to 350 mm",
                           found->name, size, length.in_millimetres()),
               "check the size and its system");
  }
  // Standard deviation of a rectangular distribution (JCGM 100:2008, 4.3.7).
  const double interval_m = found->half_interval.in_metres() / std::sqrt(3.0);
  return FootLength{length, Length::metres(std::hypot(interval_m, maker_uncertainty.in_metres()))};
}

Result<FootLength> shoe_from(std::string_view text) {
  std::string_view rest = trim(text);
  if (rest.ends_with("mm")) rest = trim(rest.substr(0, rest.size() - 2));
  const auto space = rest.find_last_of(" \t");
  const auto size =
      space == std::string_view::npos ? std::nullopt : parse_number(rest.substr(space));
  if (!size)
    return bad(rangecheck::quoted(text) + " isn't a shoe size",
               "write it as EU 42, UK 9 or US-M 10");
  return foot_length(rest.substr(0, space), *size);
}

Result<Handedness> handedness_from(std::string_view text) {
  const std::string word = lower(trim(text));
  if (word == "right") return Handedness::right;
  if (word == "left") return Handedness::left;
  return bad(rangecheck::quoted(text) + " is neither right nor left", "write right or left");
}

Result<Length> stature_from(std::string_view text) {
  const auto read = parse_quantity(text, Dimension::length);
  if (!read) return read.error();
  const Length stature = Length::metres(read->si);
  if (stature >= smallest_stature && stature <= largest_stature) return stature;
  return bad(rangecheck::quoted(text) + " can't be a stature: it is outside 0.9 m to 2.3 m",
             "check the unit");
}

std::vector<std::string> limits_from(std::string_view text) {
  std::vector<std::string> limits;
  for (const auto part : split(text, ';')) {
    if (!trim(part).empty()) limits.emplace_back(trim(part));
  }
  return limits;
}

}  // namespace rangecheck::intake
