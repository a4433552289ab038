// SPDX-License-Identifier: MIT
// What the workbook says about itself.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "report/cells.hpp"
#include "report/xlsx.hpp"

namespace rangecheck::report {

std::vector<Column> about_columns();

/// Units, uncertainty, verdicts, colours, columns and cautions; and what `sheets` had no room for.
std::vector<Cells> about_rows(std::span<const Sheet* const> sheets, std::string_view length_unit);

}  // namespace rangecheck::report
