// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "base/message.hpp"
#include "grade/grade.hpp"

namespace rangecheck::grade {

/// A number that a launch monitor gives, or that follows from two of them.
struct ReadingKind {
  std::string_view id;
  std::string_view title;
  Dimension dimension;
};

/// Every reading a profile may judge.
std::span<const ReadingKind> reading_kinds();
/// The reading with this id, or nullptr.
const ReadingKind* find_reading(std::string_view id);

/// A number from outside the films, in SI.
struct Given {
  double value_si = 0;
  double standard_uncertainty_si = 0;
  Message note;  ///< who gave it and how far it is trusted
};

/// The reading `id` of this submission; start-direction is worked out from face and path.
std::optional<Given> given_reading(const intake::Submission& submission, std::string_view id);

/// The id of the check that a person calls `written`: positions may go by their p-numbers.
std::string plain_id(std::string_view written);

/// What a person wrote under `observed:` for a measure, read as a quantity, with the standard
/// uncertainty of a person's eye (5 deg, 1 in, 0.1 s, 0.1: common practice, no source). Nothing
/// when not written; an error when what is written is no such quantity.
Result<std::optional<Given>> given_by_eye(const intake::Submission& submission, std::string_view id,
                                          Dimension wanted);

}  // namespace rangecheck::grade
