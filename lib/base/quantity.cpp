// SPDX-License-Identifier: MIT
#include "base/quantity.hpp"

#include <array>
#include <cassert>
#include <cmath>
#include <vector>

#include "base/text.hpp"

namespace rangecheck {
namespace {

constexpr std::array<Unit, 11> units = {{
    {"deg", Dimension::angle, Angle::degrees(1).in_radians()},
    {"rad", Dimension::angle, 1},
    {"in", Dimension::length, Length::inches(1).in_metres()},
    {"ft", Dimension::length, Length::feet(1).in_metres()},
    {"m", Dimension::length, 1},
    {"cm", Dimension::length, 0.01},
    {"mm", Dimension::length, 0.001},
    {"s", Dimension::time, 1},
    {"ms", Dimension::time, 0.001},
    {"", Dimension::ratio, 1},
    {"%", Dimension::ratio, 0.01},
}};

std::string symbols_of(Dimension dimension) {
  std::string out;
  for (const Unit& unit : units) {
    if (unit.dimension != dimension || unit.symbol.empty()) continue;
    if (!out.empty()) out += ", ";
    out += unit.symbol;
  }
  return out;
}

std::string article_name(Dimension dimension) {
  return (dimension == Dimension::angle ? "an " : "a ") + std::string(name_of(dimension));
}

std::string remedy_for(Dimension wanted) {
  if (wanted == Dimension::ratio) return "write a plain number such as 0.45, or one with %";
  return "write a number and a unit: " + symbols_of(wanted);
}

Error refuse(std::string_view text, Dimension wanted, std::string_view why) {
  Error error;
  error.fault = Fault::bad_value;
  error.what = quoted(text) + " isn't " + article_name(wanted);
  if (!why.empty()) error.what += ": " + std::string(why);
  error.remedy = remedy_for(wanted);
  return error;
}

/// A number with the unit after it.
struct Part {
  double number = 0;
  Unit unit;
};

/// `5 ft 10 in` → two parts. Empty when anything is neither a number nor a unit.
std::vector<Part> parts_of(std::string_view text) {
  constexpr std::string_view number_characters = "+-.0123456789eE";
  std::vector<Part> parts;
  for (text = trim(text); !text.empty(); text = trim(text)) {
    // No unit starts with an e, so that one after digits is always an exponent.
    std::size_t end = text.find_first_not_of(number_characters);
    if (end == std::string_view::npos) end = text.size();
    const auto number = parse_number(text.substr(0, end));
    if (!number) return {};
    text = trim(text.substr(end));
    end = text.find_first_of("+-.0123456789 \t");
    if (end == std::string_view::npos) end = text.size();
    const auto unit = find_unit(text.substr(0, end));
    if (!unit) return {};
    parts.push_back({*number, *unit});
    text.remove_prefix(end);
  }
  return parts;
}

}  // namespace

std::optional<Unit> find_unit(std::string_view symbol) {
  for (const Unit& unit : units) {
    if (unit.symbol == symbol) return unit;
  }
  return std::nullopt;
}

double in_unit(Quantity quantity, const Unit& unit) {
  assert(quantity.dimension == unit.dimension);
  return quantity.si / unit.si_per_unit;
}

const Unit& display_unit(Dimension dimension, std::string_view length_symbol) {
  const std::string_view symbol = dimension == Dimension::angle    ? "deg"
                                  : dimension == Dimension::time   ? "s"
                                  : dimension == Dimension::length ? length_symbol
                                                                   : "";
  for (const Unit& unit : units) {
    if (unit.dimension == dimension && unit.symbol == symbol) return unit;
  }
  assert(!"a length symbol is one of the units of length");
  return units[4];
}

Result<Quantity> parse_quantity(std::string_view text, Dimension wanted) {
  const auto parts = parts_of(text);
  if (parts.empty()) {
    const bool comma = text.find(',') != std::string_view::npos;
    return refuse(text, wanted, comma ? "the decimal sign is a point" : "");
  }
  for (const Part& part : parts) {
    if (part.unit.dimension == wanted) continue;
    if (part.unit.symbol.empty()) return refuse(text, wanted, "it has no unit");
    return refuse(text, wanted, "it is " + article_name(part.unit.dimension));
  }
  Quantity sum{0, wanted};
  // The sign in front is that of the whole: -5 ft 10 in is five feet ten below zero.
  const double sign = std::signbit(parts.front().number) ? -1 : 1;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const bool finer = i == 0 || parts[i].unit.si_per_unit < parts[i - 1].unit.si_per_unit;
    if (!finer) return refuse(text, wanted, "its units don't go from large to small");
    if (i > 0 && std::signbit(parts[i].number)) return refuse(text, wanted, "it has two signs");
    sum.si += sign * std::abs(parts[i].number) * parts[i].unit.si_per_unit;
  }
  return sum;
}

std::string_view name_of(Dimension dimension) {
  switch (dimension) {
    case Dimension::angle:
      return "angle";
    case Dimension::length:
      return "length";
    case Dimension::time:
      return "time";
    case Dimension::ratio:
      break;
  }
  return "ratio";
}

}  // namespace rangecheck
