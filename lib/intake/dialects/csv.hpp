// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "intake/raw_film.hpp"
#include "intake/spot.hpp"

namespace rangecheck::intake {

/// The one form that is no JSON: a table of points, as `convert --to csv` and spreadsheets write
/// it. One line for people: what it looks like.
inline constexpr std::string_view table_structure =
    "CSV with a row a point: columns frame, point, x, y and more, as convert --to csv writes it";

/// True for a text whose first line names columns of such a table.
bool is_table(std::string_view text);

/// Throws Refusal with the line and the column of what is wrong.
RawFilm read_table(std::string_view text, const Spot& where);

}  // namespace rangecheck::intake
