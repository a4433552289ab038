// SPDX-License-Identifier: MIT
#include "grade/named_check.hpp"

#include "base/text.hpp"
#include "grade/vocabulary.hpp"

namespace rangecheck::grade {

Result<KnownCheck> known_check(std::string_view text, Position here) {
  const std::string unknown = "there is no check " + rangecheck::quoted(text);
  auto found = find_check(text, here, Known{}, unknown);
  if (!found) {
    found.error().fault = Fault::bad_value;
    return found.error();
  }
  return KnownCheck{.id = found->id,
                    .title = std::string(found->named.title),
                    .position = found->position,
                    .dimension = found->named.dimension.value_or(Dimension::ratio)};
}

}  // namespace rangecheck::grade
