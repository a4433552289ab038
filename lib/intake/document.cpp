// SPDX-License-Identifier: MIT
#include "intake/document.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"

namespace rangecheck::intake {
namespace {

/// Deepest dialect: nine. Bounds recursion in whoever walks the document.
constexpr int deepest = 64;
/// A minute at 240 Hz with 33 points in picture and space is 4 million values.
constexpr std::size_t most_values = std::size_t{16} << 20;

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A stretch of text outside strings that is NaN or an infinity.
struct Stretch {
  std::size_t begin, length;
};

/// Length of the not-a-number token at `at`, or 0.
std::size_t token_length(std::string_view text, std::size_t at) {
  const std::size_t sign = text[at] == '-' ? 1 : 0;
  for (const std::string_view token : {"NaN", "Infinity"}) {
    if (text.substr(at + sign).starts_with(token)) return sign + token.size();
  }
  return 0;
}

/// Finds the tokens to replace, and refuses a document that is too deep or too large to parse.
std::vector<Stretch> scan(std::string_view text, const Spot& where) {
  std::vector<Stretch> tokens;
  bool in_string = false;
  int depth = 0;
  std::size_t values = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"') in_string = !in_string;
    if (in_string) {
      if (c == '\\') ++i;
      continue;
    }
    if (c == '[' || c == '{') ++depth;
    if (c == ']' || c == '}') --depth;
    if (c == ',') ++values;
    if (depth > deepest) {
      refuse(where, Fault::unreadable, "is nested too deeply for a landmark file");
    }
    if (values > most_values) {
      refuse(where, Fault::unreadable, "holds more than 16 million values",
             "cut the film to the swing itself");
    }
    if (c != '-' && c != 'N' && c != 'I') continue;
    if (const std::size_t length = token_length(text, i)) {
      tokens.push_back({i, length});
      i += length - 1;
    }
  }
  return tokens;
}

std::string with_nulls(std::string_view text, const std::vector<Stretch>& tokens) {
  std::string out;
  out.reserve(text.size() + tokens.size());
  std::size_t done = 0;
  for (const Stretch& token : tokens) {
    out += text.substr(done, token.begin - done);
    out += "null";
    done = token.begin + token.length;
  }
  out += text.substr(done);
  return out;
}

[[noreturn]] void refuse_syntax(std::string_view text, const Json::parse_error& caught,
                                const Spot& where, int first_line) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(caught.byte, text.size()));
  Error error{Fault::unreadable, "isn't valid JSON", where.place(), ""};
  error.where.line = first_line + static_cast<int>(std::count(text.begin(), end, '\n'));
  const bool cut_short = caught.byte > text.size();
  if (cut_short) error.what = "is cut short: the JSON in it doesn't end";
  error.remedy = cut_short ? "send the file again" : "";
  throw Refusal{error};
}

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

Place Spot::place() const {
  std::vector<std::string> steps;
  for (const Spot* spot = this; spot->up_ != nullptr; spot = spot->up_) {
    std::string step = spot->index_ ? std::to_string(*spot->index_) : std::string();
    if (!spot->index_) {
      for (const char c : spot->key_) {  // RFC 6901, section 3
        step += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
      }
    }
    steps.push_back('/' + printable(step));
  }
  Place place{.file = std::string(file_), .line = {}, .frame = frame_, .key = ""};
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) place.key += *step;
  return place;
}

void refuse(const Spot& where, Fault fault, std::string what, std::string remedy) {
  throw Refusal{Error{fault, std::move(what), where.place(), std::move(remedy)}};
}

Json parse_document(std::string_view text, const Spot& where, int first_line) {
  if (trim(text).empty()) refuse(where, Fault::unreadable, "is empty");
  const auto tokens = scan(text, where);
  try {
    if (tokens.empty()) return Json::parse(text);
    return Json::parse(with_nulls(text, tokens));
  } catch (const Json::parse_error& caught) {
    refuse_syntax(text, caught, where, first_line);
  } catch (const Json::exception&) {
    refuse(where, Fault::unreadable, "holds a number too large for any film");
  }
}

bool is_empty(const Json& value) {
  return value.is_null() || ((value.is_array() || value.is_object()) && value.empty());
}

const Json* member(const Json& value, std::string_view key) {
  if (!value.is_object()) return nullptr;
  const auto found = value.find(key);
  return found == value.end() ? nullptr : &*found;
}

std::optional<double> number_or_null(const Json& value, const Spot& where) {
  if (value.is_null()) return std::nullopt;
  if (!value.is_number()) {
    refuse(where, Fault::bad_value, "should be a number, is " + kind_of(value));
  }
  return value.get<double>();
}

std::string kind_of(const Json& value) {
  switch (value.type()) {
    case Json::value_t::null:
      return "null";
    case Json::value_t::object:
      return "an object";
    case Json::value_t::array:
      return "an array";
    case Json::value_t::string:
      return "the text " + rangecheck::quoted(value.get_ref<const std::string&>());
    case Json::value_t::boolean:
      return value.get<bool>() ? "true" : "false";
    default:
      return "a number";
  }
}

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
