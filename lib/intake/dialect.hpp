// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "intake/document.hpp"
#include "intake/film.hpp"

namespace rangecheck::intake {

/// A way of writing landmarks, told by the structure of the document alone.
///
/// `read` gives the film as it stands in the document: coordinates in pixels or in fractions of the
/// picture, sides as for a right-handed golfer (left is lead), people without any point left out.
/// It throws Refusal. A document that is one frame of a film of many files gives a film of one
/// frame.
struct Dialect {
  std::string_view structure;  ///< one line for people: what such a document looks like
  bool (*recognises)(const Json& document);
  Film (*read)(const Json& document, const Spot& where);
};

extern const Dialect plain;
extern const Dialect people_per_frame;
extern const Dialect coco_results;
extern const Dialect points_33;

/// The plain form may also be JSON Lines: true when the first line is its header and more follow.
bool is_plain_lines(std::string_view text);
/// The same film as one document. Throws Refusal.
Json join_plain_lines(std::string_view text, const Spot& where);

}  // namespace rangecheck::intake
