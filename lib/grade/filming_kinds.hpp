// SPDX-License-Identifier: MIT
// What can be asked of a film: the one list of it. Inside grade only.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "base/message.hpp"
#include "grade/filming.hpp"

namespace rangecheck::grade {

/// An answer in SI.
struct Answer {
  double value = 0, u = 0;
  Message detail = {};
  /// Id of the words for why the true value may be larger; empty: it is not.
  std::string_view may_be_more = {};
};

struct FilmingKind {
  std::string_view id;
  Dimension dimension;
  bool of_swing;            ///< matters to a swing only
  bool a_second;            ///< pictures a second
  bool speaks;              ///< as FilmJudgement
  std::string_view absent;  ///< id of the words for why there is no answer
  std::optional<Answer> (*answer)(const motion::FilmFacts& facts,
                                  const std::optional<posture::CameraSeen>& camera);
};

std::span<const FilmingKind> filming_kinds();
const FilmingKind* find_filming_kind(std::string_view id);

}  // namespace rangecheck::grade
