// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "intake/submission.hpp"

namespace rangecheck::intake {

/// What the name of a loose file says: STUDENT_CLUB_SWING_VIEW.json (or .jsonl, .csv). Only STUDENT
/// may have underscores of its own.
struct LooseName {
  std::string stem;  ///< STUDENT_CLUB_SWING
  std::string student, club, swing;
  View view = View::face_on;
};

/// Nothing when the name isn't of that form.
std::optional<LooseName> parse_loose_name(std::string_view file_name);

/// True for .json and .jsonl, with or without .gz; for .csv under a loose name only, since other
/// tables lie about everywhere.
bool is_landmark_name(std::string_view file_name);

}  // namespace rangecheck::intake
