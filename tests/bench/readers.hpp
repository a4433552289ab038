// SPDX-License-Identifier: MIT
// What reading a landmark file costs without any rangecheck: each walks all of it and adds up all
// numbers and all lengths of keys, so that nothing of the text can be skipped and the results can
// be compared. Texts need simdjson::SIMDJSON_PADDING bytes of capacity behind them. One thread.
#pragma once

#include <string>

namespace rangecheck::bench {

double by_walk(const std::string& text);      ///< simdjson on demand: the floor
double by_tape(const std::string& text);      ///< simdjson's flat tape, as intake uses it
double by_events(const std::string& text);    ///< nlohmann's SAX interface
double by_document(const std::string& text);  ///< nlohmann's document tree

}  // namespace rangecheck::bench
