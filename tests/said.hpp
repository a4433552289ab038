// SPDX-License-Identifier: MIT
// Messages as tests read them: in the program's English.
#pragma once

#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.hpp"

namespace rangecheck {

inline bool operator==(const Message& message, std::string_view english) {
  return in_english(message) == english;
}

inline std::ostream& operator<<(std::ostream& out, const Message& message) {
  return out << in_english(message);
}

inline std::vector<std::string> in_english(const std::vector<Message>& messages) {
  std::vector<std::string> all;
  for (const auto& message : messages) all.push_back(in_english(message));
  return all;
}

}  // namespace rangecheck
