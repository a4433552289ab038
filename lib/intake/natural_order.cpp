// SPDX-License-Identifier: MIT
#include "intake/natural_order.hpp"

#include <optional>

namespace rangecheck::intake {
namespace {

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "cam01.0012.json.gz" → "cam01.0012": endings start with a letter.
std::string_view stem_of(std::string_view name) {
  while (true) {
    const auto dot = name.rfind('.');
    const bool ending = dot != std::string_view::npos && dot > 0 && dot + 1 < name.size() &&
                        !is_digit(name[dot + 1]);
    if (!ending) return name;
    name = name.substr(0, dot);
  }
}

std::optional<std::size_t> last_number(std::string_view name) {
  name = stem_of(name);
  while (!name.empty() && !is_digit(name.back())) name.remove_suffix(1);
  std::size_t begin = name.size();
  while (begin > 0 && is_digit(name[begin - 1])) --begin;
  const auto digits = name.substr(begin);
  constexpr std::size_t longest = 15;  // exact in a double, should someone make one of it
  if (digits.empty() || digits.size() > longest) return std::nullopt;
  std::size_t value = 0;
  for (const char c : digits) value = value * 10 + static_cast<std::size_t>(c - '0');
  return value;
}

/// Takes the leading digits off `text`, without their leading zeros.
std::string_view take_digits(std::string_view& text) {
  std::size_t end = 0;
  while (end < text.size() && is_digit(text[end])) ++end;
  std::string_view digits = text.substr(0, end);
  text.remove_prefix(end);
  while (digits.size() > 1 && digits.front() == '0') digits.remove_prefix(1);
  return digits;
}

}  // namespace

bool natural_less(std::string_view a, std::string_view b) {
  const std::string_view whole_a = a, whole_b = b;
  while (!a.empty() && !b.empty()) {
    if (is_digit(a.front()) && is_digit(b.front())) {
      const auto number_a = take_digits(a), number_b = take_digits(b);
      if (number_a.size() != number_b.size()) return number_a.size() < number_b.size();
      if (number_a != number_b) return number_a < number_b;
      continue;
    }
    if (a.front() != b.front()) return a.front() < b.front();
    a.remove_prefix(1);
    b.remove_prefix(1);
  }
  if (a.empty() != b.empty()) return a.empty();
  return whole_a < whole_b;
}

std::vector<std::size_t> frame_numbers(const std::vector<std::string>& names) {
  std::vector<std::size_t> numbers;
  for (const auto& name : names) {
    const auto number = last_number(name);
    if (!number || (!numbers.empty() && *number <= numbers.back())) break;
    numbers.push_back(*number);
  }
  if (numbers.size() == names.size()) return numbers;
  numbers.resize(names.size());
  for (std::size_t i = 0; i < numbers.size(); ++i) numbers[i] = i;
  return numbers;
}

}  // namespace rangecheck::intake
