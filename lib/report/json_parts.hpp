// SPDX-License-Identifier: MIT
// What the JSON documents share. Not for other rooms.
#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "base/quantity.hpp"
#include "base/result.hpp"
#include "grade/filming.hpp"
#include "history/progress.hpp"

namespace rangecheck::report {

using Json = nlohmann::ordered_json;

/// Of results, of what takes a result's place, and of errors.
inline constexpr int format_version = 1;

/// Names come from people's files: broken UTF-8 in one must not cost the whole result.
inline std::string written(const Json& document, std::optional<int> indent) {
  return document.dump(indent.value_or(-1), ' ', false, Json::error_handler_t::replace) + "\n";
}

/// Documents have the unit of the SI, so that no reader needs to know what the coach likes to see.
inline Unit document_unit(Dimension dimension) {
  if (dimension == Dimension::length) return *find_unit("m");
  return display_unit(dimension);
}

/// A number, or null where there is none.
inline Json number(std::optional<double> value) {
  if (!value || !std::isfinite(*value)) return nullptr;
  return *value;
}

inline Json number(std::optional<double> si, const Unit& unit) {
  return number(si ? std::optional(in_unit({*si, unit.dimension}, unit)) : std::nullopt);
}

/// `entry` of each of `all`.
template <class All, class Entry>
Json list_of(const All& all, Entry entry) {
  Json list = Json::array();
  for (const auto& one : all) list.push_back(entry(one));
  return list;
}

/// Unit, value, standard uncertainty and 95 % interval, appended to `entry`.
void add_value(Json& entry, std::optional<double> si, double standard_uncertainty_si,
               Dimension dimension);

/// What is different since the submission before: `since_last` in result.schema.json.
Json since_entry(const history::Course& course);

/// How good a film is: `film` in result.schema.json.
Json film_entry(const grade::FilmQuality& film);

}  // namespace rangecheck::report
