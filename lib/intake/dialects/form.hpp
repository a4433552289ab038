// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "intake/raw_film.hpp"
#include "intake/value.hpp"

namespace rangecheck::intake {

/// A way of writing landmarks, told by the structure of the document alone: its keys and what is
/// under them, never file names, and never more than its first entries.
///
/// `read` throws Refusal. A document that is one frame of a film of many files gives a film of one
/// frame. JSON Lines come as a list of their lines.
struct Form {
  std::string_view id;         ///< kebab-case, for tests and tables
  std::string_view structure;  ///< one line for people: what such a document looks like
  bool (*recognises)(Value document);
  RawFilm (*read)(Value document, const Spot& where);
};

}  // namespace rangecheck::intake
