// SPDX-License-Identifier: MIT
#include "grade/band.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"

namespace rangecheck::grade {
namespace {

constexpr std::string_view understood =
    "write `14..15 in`, `at-least 3 deg`, `at-most 5 deg` or `around 30 deg ± 5 deg`";

Error not_a_target(std::string what) {
  return {Fault::bad_profile, std::move(what), {}, std::string(understood)};
}

/// The unit symbol that ends `text`, "" when it ends in a number.
std::string_view unit_at_end(std::string_view text) {
  const auto last = text.find_last_of("0123456789.");
  return trim(last == std::string_view::npos ? text : text.substr(last + 1));
}

struct Pair {
  double first_si, second_si;
  std::string unit;
};

/// Two quantities of which only the second needs a unit.
Result<Pair> parse_pair(std::string_view first, std::string_view second, Dimension wanted) {
  const std::string unit(unit_at_end(second));
  std::string whole_first(trim(first));
  if (unit_at_end(whole_first).empty() && !unit.empty()) whole_first += " " + unit;
  const auto a = parse_quantity(whole_first, wanted);
  if (!a) return a.error();
  const auto b = parse_quantity(trim(second), wanted);
  if (!b) return b.error();
  return Pair{a->si, b->si, unit};
}

Result<Target> around(std::string_view text, std::string_view whole, Dimension wanted) {
  for (const std::string_view sign : {"±", "+-"}) {
    const auto at = text.find(sign);
    if (at == std::string_view::npos) continue;
    const auto pair = parse_pair(text.substr(0, at), text.substr(at + sign.size()), wanted);
    if (!pair) return pair.error();
    if (!(pair->second_si > 0))
      return not_a_target(
          fmt::format("{}: the half-width must be more than 0", rangecheck::quoted(whole)));
    return Target{{pair->first_si - pair->second_si, pair->first_si + pair->second_si}, pair->unit};
  }
  return not_a_target(
      fmt::format("{} says around what, but not within how much", rangecheck::quoted(whole)));
}

Result<Target> between(std::string_view first, std::string_view second, std::string_view whole,
                       Dimension wanted) {
  const auto pair = parse_pair(first, second, wanted);
  if (!pair) return pair.error();
  if (!(pair->first_si < pair->second_si))
    return not_a_target(
        fmt::format("{}: the lower limit must be less than the upper", rangecheck::quoted(whole)));
  return Target{{pair->first_si, pair->second_si}, pair->unit};
}

}  // namespace

Result<Target> parse_target(std::string_view text, Dimension wanted) {
  const auto whole = trim(text);
  const auto after = [whole](std::string_view word) -> std::optional<std::string_view> {
    if (!whole.starts_with(word)) return std::nullopt;
    return trim(whole.substr(word.size()));
  };
  if (const auto rest = after("around")) return around(*rest, whole, wanted);
  for (const bool is_lower : {true, false}) {
    const auto rest = after(is_lower ? "at-least" : "at-most");
    if (!rest) continue;
    const auto limit = parse_quantity(*rest, wanted);
    if (!limit) return limit.error();
    Target target{{}, std::string(unit_at_end(*rest))};
    (is_lower ? target.band.lower_si : target.band.upper_si) = limit->si;
    return target;
  }
  const auto dots = whole.find("..");
  if (dots == std::string_view::npos)
    return not_a_target(fmt::format("{} is not a target", rangecheck::quoted(whole)));
  return between(whole.substr(0, dots), whole.substr(dots + 2), whole, wanted);
}

std::string to_string(const Band& band, Dimension dimension, std::string_view symbol) {
  const auto unit = find_unit(symbol).value_or(display_unit(dimension));
  const auto number = [&](double si) {
    const double shown = in_unit({si, dimension}, unit);
    return fmt::format("{:.4g}", shown == 0 ? 0.0 : shown);  // never "-0"
  };
  const auto with_unit = [&](std::string text) {
    if (!unit.symbol.empty()) text.append(" ").append(unit.symbol);
    return text;
  };
  if (band.lower_si && band.upper_si)
    return with_unit(number(*band.lower_si) + ".." + number(*band.upper_si));
  if (band.lower_si) return with_unit("at least " + number(*band.lower_si));
  if (band.upper_si) return with_unit("at most " + number(*band.upper_si));
  return "any";
}

double distance_beyond(double value_si, const Band& band) {
  double beyond = 0;
  if (band.lower_si) beyond = std::max(beyond, *band.lower_si - value_si);
  if (band.upper_si) beyond = std::max(beyond, value_si - *band.upper_si);
  return beyond;
}

}  // namespace rangecheck::grade
