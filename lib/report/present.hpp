// SPDX-License-Identifier: MIT
// What the kinds of output share: how numbers, bands and running text look. Not for other rooms.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/coverage.hpp"
#include "base/position.hpp"
#include "base/quantity.hpp"
#include "base/words.hpp"
#include "grade/grade.hpp"
#include "report/report.hpp"

namespace rangecheck::report {

/// Where in the swing a check or a value belongs; nothing for the swing as a whole.
using Place = std::optional<Position>;

/// Every place in the order of reports: the positions, then the whole swing.
inline constexpr std::array<Place, position_count + 1> all_places = [] {
  std::array<Place, position_count + 1> places{};
  for (const Position position : all_positions) places[index_of(position)] = position;
  return places;
}();

/// The unit a check is shown in: lengths as `length_unit` says, a ratio in % only where its band
/// was written so (`band_unit`).
const Unit& shown_unit(Dimension dimension, std::string_view band_unit,
                       std::string_view length_unit);
const Unit& shown_unit(const grade::Check& check, std::string_view length_unit);

/// `si` counted in `unit`.
double shown(double si, const Unit& unit);

/// Decimals that mean something in `unit`: none of degrees and per cents, tenths of an inch or
/// centimetre, hundredths of a ratio or a second.
int decimals(const Unit& unit);

/// `number` and the unit's symbol, as the language has it.
std::string with_symbol(const Words& words, std::string number, const Unit& unit);

/// `value`, already in `unit`, with the digits that mean something: whole degrees and per cents,
/// tenths of an inch or centimetre, hundredths of a ratio. Numbers for people have the language's
/// decimal mark.
std::string digits(const Words& words, double value, const Unit& unit);

/// "21 ± 7°", the ± being half of the 95 % interval.
std::string with_interval(const Words& words, double si, double standard_uncertainty_si,
                          const Unit& unit);

/// "30 a second", "12 ± 4 %", "0.95 ± 0.40 m", or "" where there is none: in the unit that
/// filming.yaml has.
std::string value_text(const Words& words, const grade::FilmJudgement& judgement);

/// "14 to 15 in", "at least 3°", or for an observed check "trail-side or centre".
std::string band_text(const Words& words, const grade::Check& check, const Unit& unit);
std::string band_text(const Words& words, const grade::Band& band, const Unit& unit);

/// A limit of a band, which a person wrote: up to two decimals, but no trailing zeros.
std::string limit_text(const Words& words, double si, const Unit& unit);

/// "2 checks", "1 check".
std::string count_of(std::size_t count, std::string_view noun);

/// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& items, std::string_view last_joint = "and");

/// `text` as lines of at most `width` columns, each ended; the first begins with `first`, the
/// others with as many spaces as `first` has columns. Control characters are made visible.
std::string paragraph(std::string_view text, std::string_view first = "", std::size_t width = 80);

/// Columns that `utf8` takes, counting one a code point.
std::size_t columns(std::string_view utf8);

/// `utf8` padded with spaces to at least `width` columns.
std::string padded(std::string_view utf8, std::size_t width);

/// "Lead arm parallel back", for headings.
std::string title_of(const Words& words, Position position);

/// "p1, p3-p5": positions by their aliases.
std::string aliases(Positions positions);

/// "top (p4)" each, or "shaft parallel back to finish (p2-p10)" for three or more in a row.
std::vector<std::string> names_of(const Words& words, Positions positions);

/// "Shoulder turn (p4)"; of the whole swing the title alone.
std::string titled_at(const std::string& title, Place place);

/// The day of an ISO 8601 date or date-time; of nothing, nothing.
std::string day_of(const std::string& received);
/// "85 ± 9 %", the interval at 95 %.
std::string percent_text(double percent, double standard_uncertainty);

/// The rule behind a measured check, a coach's own included, or nullptr.
const measure::Rule* rule_of(const Graded& graded, const grade::Check& check);

/// The region a check belongs to, or "club and what was seen" for readings and observations.
std::string_view region_of(const Graded& graded, const grade::Check& check);

/// `title` as it stands within a sentence.
std::string in_sentence(const Words& words, const std::string& title);

/// Seen and not switched off.
bool is_judged(grade::Verdict verdict);
bool judged(const grade::CheckResult& result);

/// Surely outside its band, or differing from its words.
bool outside(const grade::CheckResult& result);
bool outside(grade::Verdict verdict);

PositionCount positions_of(const grade::Grade& grade);

/// The verdict of the worse film; not known where no film could be judged.
grade::FilmVerdict worse_film(const Graded& graded);

/// The results that carry `verdict`, in their order.
std::vector<const grade::CheckResult*> results_with(const grade::Grade& grade,
                                                    grade::Verdict verdict);

}  // namespace rangecheck::report
