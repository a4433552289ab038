// SPDX-License-Identifier: MIT
// What may be taught and is hardly meant. Inside grade only.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "grade/taught_files.hpp"

namespace rangecheck::grade {

/// A measure that two others leave no choice: `whole` = `more` − `less`, or more / less.
struct Relation {
  std::string_view whole, more, less;
  bool ratio = false;
  bool since_address = false;  ///< `less` is of the address, whatever the position of the others
};
/// Those that hold exactly, by the definitions of the measures.
std::span<const Relation> relations();

/// What to think about, once each, with places; for files without faults.
Faults advice_on(const TaughtFiles& files);

/// Each sentence of another language that `words` have no translation of.
Faults untranslated(const TaughtFiles& files, const rangecheck::Words& words);

}  // namespace rangecheck::grade
