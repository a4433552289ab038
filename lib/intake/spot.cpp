// SPDX-License-Identifier: MIT
#include "intake/spot.hpp"

#include <vector>

#include "base/text.hpp"

namespace rangecheck::intake {

Place Spot::place() const {
  std::vector<std::string> steps;
  for (const Spot* spot = this; spot->up_ != nullptr; spot = spot->up_) {
    std::string step = spot->index_ ? std::to_string(*spot->index_) : std::string();
    if (!spot->index_) {
      for (const char c : spot->key_) {  // RFC 6901, section 3
        step += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
      }
    }
    steps.push_back('/' + shortened(step));
  }
  Place place{.file = std::string(file_), .line = {}, .frame = frame_, .key = ""};
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) place.key += *step;
  return place;
}

void refuse(const Spot& where, Fault fault, std::string what, std::string remedy) {
  throw Refusal{Error{fault, std::move(what), where.place(), std::move(remedy)}};
}

}  // namespace rangecheck::intake
