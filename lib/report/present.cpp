// SPDX-License-Identifier: MIT
#include "report/present.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::report {
namespace {

/// `number` with the language's decimal mark.
std::string localised(const Words& words, std::string number) {
  if (const auto point = number.find('.'); point != std::string::npos)
    number.replace(point, 1, words.say("numbers.decimal-mark"));
  return number;
}

struct Run {
  Position first, last;
};

/// The positions as stretches without a gap.
std::vector<Run> runs(Positions positions) {
  std::vector<Run> found;
  bool in_run = false;
  for (const Position position : all_positions) {
    const bool has = positions.has(position);
    if (has && !in_run) found.push_back({position, position});
    if (has) found.back().last = position;
    in_run = has;
  }
  return found;
}

}  // namespace

const Unit& shown_unit(Dimension dimension, std::string_view band_unit,
                       std::string_view length_unit) {
  static const Unit percent = *find_unit("%");
  if (dimension == Dimension::ratio && band_unit == "%") return percent;
  return display_unit(dimension, length_unit);
}

const Unit& shown_unit(const grade::Check& check, std::string_view length_unit) {
  return shown_unit(check.dimension, check.unit, length_unit);
}

int decimals(const Unit& unit) {
  switch (unit.dimension) {
    case Dimension::angle:
      return 0;
    case Dimension::length:
      return 1;
    case Dimension::ratio:
      return unit.symbol.empty() ? 2 : 0;
    case Dimension::time:
      return 2;
  }
  return 2;
}

double shown(double si, const Unit& unit) { return in_unit({si, unit.dimension}, unit); }

std::string with_symbol(const Words& words, std::string number, const Unit& unit) {
  if (unit.symbol.empty()) return number;
  const std::string symbol = words.say("units." + std::string(unit.symbol));
  // The degree sign alone has no space before it: SI Brochure, 9th edition (2019), 5.4.3.
  return number + (symbol == "°" ? "" : " ") + symbol;
}

std::string digits(const Words& words, double value, const Unit& unit) {
  std::string text = fmt::format("{:.{}f}", value, decimals(unit));
  // Rounding leaves "-0" and "-0.0", which read like a sign that means something.
  const bool zero = text.find_first_not_of("-0.") == std::string::npos;
  return localised(words, zero && text.front() == '-' ? text.substr(1) : text);
}

std::string with_interval(const Words& words, double si, double standard_uncertainty_si,
                          const Unit& unit) {
  const double half_width = shown(coverage_factor_95 * standard_uncertainty_si, unit);
  return with_symbol(words,
                     words.say("numbers.interval", {{"value", digits(words, shown(si, unit), unit)},
                                                    {"half", digits(words, half_width, unit)}}),
                     unit);
}

std::string value_text(const Words& words, const grade::FilmJudgement& judgement) {
  if (!judgement.value_si) return "";
  if (judgement.a_second)
    return words.say("numbers.a-second", {{"count", fmt::format("{:.0f}", *judgement.value_si)}});
  const Unit unit = *find_unit(judgement.criterion.unit);
  const double value = shown(*judgement.value_si, unit);
  const double half_width = shown(coverage_factor_95 * judgement.standard_uncertainty_si, unit);
  // Cameras are placed to a hand's breadth; what is counted has no spread.
  const bool metres = unit.symbol == "m" || unit.symbol == "ft";
  const bool tenths = unit.symbol == "%" && std::abs(value) < 1.95;
  const auto number = [&](double each) {
    return metres || tenths ? localised(words, fmt::format("{:.{}f}", each, metres ? 2 : 1))
                            : digits(words, each, unit);
  };
  return with_symbol(words,
                     half_width > 0 ? words.say("numbers.interval", {{"value", number(value)},
                                                                     {"half", number(half_width)}})
                                    : number(value),
                     unit);
}

std::string limit_text(const Words& words, double si, const Unit& unit) {
  std::string text = fmt::format("{:.2f}", shown(si, unit));
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : localised(words, text);
}

std::string day_of(const std::string& received) {
  return received.substr(0, std::string_view("2026-03-14").size());
}

std::string percent_text(double percent, double standard_uncertainty) {
  return fmt::format("{:.0f} ± {:.0f} %", percent, coverage_factor_95 * standard_uncertainty);
}

std::string titled_at(const std::string& title, Place place) {
  return place ? fmt::format("{} ({})", title, alias_of(*place)) : title;
}

std::string band_text(const Words& words, const grade::Check& check, const Unit& unit) {
  if (check.subject == grade::Subject::observed) {
    std::vector<std::string> accepted;
    for (const auto& word : check.accept) accepted.push_back(words.tell(word).text);
    return listed(words, accepted, "numbers.or");
  }
  return band_text(words, check.band, unit);
}

std::string band_text(const Words& words, const grade::Band& band, const Unit& unit) {
  const auto& [lower, upper] = band;
  const auto limit = [&](double si) { return limit_text(words, si, unit); };
  if (lower && upper)
    return with_symbol(
        words, words.say("numbers.between", {{"lower", limit(*lower)}, {"upper", limit(*upper)}}),
        unit);
  if (lower)
    return with_symbol(words, words.say("numbers.at-least", {{"limit", limit(*lower)}}), unit);
  if (upper)
    return with_symbol(words, words.say("numbers.at-most", {{"limit", limit(*upper)}}), unit);
  return words.say("numbers.anything");
}

std::string count_of(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string listed(const std::vector<std::string>& items, std::string_view last_joint) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += i + 1 == items.size() ? fmt::format(" {} ", last_joint) : ", ";
    text += items[i];
  }
  return text;
}

std::size_t columns(std::string_view utf8) {
  return static_cast<std::size_t>(std::count_if(utf8.begin(), utf8.end(), [](char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
  }));
}

std::string padded(std::string_view utf8, std::size_t width) {
  const std::size_t used = columns(utf8);
  return std::string(utf8) + std::string(width > used ? width - used : 0, ' ');
}

std::string paragraph(std::string_view text, std::string_view first, std::size_t width) {
  // Profiles fold long sentences over lines; those breaks mean nothing here.
  std::string flat(text);
  std::replace(flat.begin(), flat.end(), '\n', ' ');
  const std::string clean = printable(flat);
  const std::string indent(columns(first), ' ');
  std::string lines(first);
  std::size_t used = columns(first);
  bool line_has_word = false;
  for (const std::string_view word : split(clean, ' ')) {
    if (word.empty()) continue;
    if (line_has_word && used + 1 + columns(word) > width) {
      lines += "\n" + indent;
      used = indent.size();
      line_has_word = false;
    }
    if (line_has_word) {
      lines += ' ';
      ++used;
    }
    lines += word;
    used += columns(word);
    line_has_word = true;
  }
  return lines + "\n";
}

std::string aliases(Positions positions) {
  std::string text;
  for (const auto& [first, last] : runs(positions)) {
    if (!text.empty()) text += ", ";
    text += alias_of(first);
    if (first != last) text += fmt::format("-{}", alias_of(last));
  }
  return text;
}

std::vector<std::string> names_of(const Words& words, Positions positions) {
  const auto title = [&](Position position) {
    return in_sentence(words, title_of(words, position));
  };
  std::vector<std::string> names;
  for (const auto& [first, last] : runs(positions)) {
    if (index_of(last) >= index_of(first) + 2) {
      names.push_back(words.say("unseen.stretch", {{"first", title(first)},
                                                   {"last", title(last)},
                                                   {"first-alias", std::string(alias_of(first))},
                                                   {"last-alias", std::string(alias_of(last))}}));
      continue;
    }
    for (std::size_t i = index_of(first); i <= index_of(last); ++i)
      names.push_back(
          words.say("checks.position", {{"title", title(all_positions[i])},
                                        {"alias", std::string(alias_of(all_positions[i]))}}));
  }
  return names;
}

std::string title_of(const Words& words, Position position) {
  return words.say("positions." + std::string(id_of(position)) + ".title");
}

std::string in_sentence(const Words& words, const std::string& title) {
  return words.say("titles.in-sentences") == "lower" ? lower(title) : title;
}

const measure::Rule* rule_of(const Graded& graded, const grade::Check& check) {
  if (check.subject != grade::Subject::measured) return nullptr;
  // A coach's own rule is in no catalogue, but what was measured by it refers to it.
  const auto found = std::find_if(graded.measured.begin(), graded.measured.end(),
                                  [&](const auto& one) { return one.rule->id == check.rule; });
  return found != graded.measured.end() ? found->rule : measure::find_rule(check.rule);
}

std::string_view region_of(const Graded& graded, const grade::Check& check) {
  if (check.subject != grade::Subject::measured) return "club and what was seen";
  const measure::Rule* rule = rule_of(graded, check);
  return rule ? measure::name_of(rule->region) : "own measures";
}

bool is_judged(grade::Verdict verdict) {
  return verdict != grade::Verdict::not_seen && verdict != grade::Verdict::switched_off;
}

bool judged(const grade::CheckResult& result) { return is_judged(result.verdict); }

bool outside(const grade::CheckResult& result) { return outside(result.verdict); }

bool outside(grade::Verdict verdict) {
  return verdict == grade::Verdict::low || verdict == grade::Verdict::high ||
         verdict == grade::Verdict::outside_words;
}

PositionCount positions_of(const grade::Grade& grade) {
  const auto found = static_cast<std::size_t>(
      std::count_if(grade.positions.begin(), grade.positions.end(),
                    [](const auto& one) { return one.position.has_value(); }));
  return {found, found + grade.not_found.size()};
}

grade::FilmVerdict worse_film(const Graded& graded) {
  auto worse = grade::FilmVerdict::not_known;
  for (const auto verdict :
       {grade::FilmVerdict::good, grade::FilmVerdict::fair, grade::FilmVerdict::poor})
    for (const auto& film : graded.films)
      if (film.verdict() == verdict) worse = verdict;
  return worse;
}

std::vector<const grade::CheckResult*> results_with(const grade::Grade& grade,
                                                    grade::Verdict verdict) {
  std::vector<const grade::CheckResult*> found;
  for (const auto& result : grade.results)
    if (result.verdict == verdict) found.push_back(&result);
  return found;
}

}  // namespace rangecheck::report
