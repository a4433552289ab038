// SPDX-License-Identifier: MIT
#include "intake/json_text.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>

#include "base/text.hpp"

namespace rangecheck::intake {
namespace {

using Json = nlohmann::json;

/// Calls use(position) for every character outside strings until it returns false.
template <class Use>
void each_outside_strings(std::string_view text, Use use) {
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') in_string = !in_string;
    if (in_string) {
      if (text[i] == '\\') ++i;
      continue;
    }
    if (!use(i)) return;
  }
}

/// Length of the not-a-number token at `at`, or 0.
std::size_t token_length(std::string_view text, std::size_t at) {
  const std::size_t sign = text[at] == '-' ? 1 : 0;
  for (const std::string_view token : {"NaN", "Infinity"}) {
    if (text.substr(at + sign).starts_with(token)) return sign + token.size();
  }
  return 0;
}

bool is_too_deep(std::string_view text) {
  int depth = 0, most = 0;
  each_outside_strings(text, [&](std::size_t i) {
    if (text[i] == '[' || text[i] == '{') most = std::max(most, ++depth);
    if (text[i] == ']' || text[i] == '}') --depth;
    return most <= deepest;
  });
  return most > deepest;
}

/// Length of the list or object at the beginning of `line`; nothing when it doesn't end there.
std::optional<std::size_t> value_length(std::string_view line) {
  int depth = 0;
  std::optional<std::size_t> length;
  each_outside_strings(line, [&](std::size_t i) {
    if (line[i] == '[' || line[i] == '{') ++depth;
    if (line[i] == ']' || line[i] == '}') --depth;
    if (depth <= 0) length = i + 1;
    return depth > 0;
  });
  return length;
}

/// The first line with anything on it, and what follows it.
struct Head {
  std::string_view line, rest;
};

Head head_of(std::string_view text) {
  while (true) {
    const auto end = std::min(text.find('\n'), text.size());
    const auto line = trim(text.substr(0, end));
    const auto rest = text.substr(std::min(end + 1, text.size()));
    if (!line.empty() || rest.empty()) return {line, rest};
    text = rest;
  }
}

/// Finds where a text stops being JSON, and why.
class FaultFinder : public nlohmann::json_sax<Json> {
 public:
  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t& written) override {
    // A whole number that takes more than 64 bits.
    too_large = written.find_first_of(".eE") == string_t::npos;
    return !too_large;
  }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override { return true; }
  bool key(string_t&) override { return true; }
  bool end_object() override { return true; }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception& fault) override {
    byte = position;
    constexpr int out_of_range = 406;
    too_large = fault.id == out_of_range;
    return false;
  }

  std::size_t byte = 0;
  bool too_large = false;
};

/// Refuses the text when it has a fault; it begins on `first_line`.
void refuse_fault(std::string_view text, int first_line, const Spot& where) {
  FaultFinder fault;
  if (Json::sax_parse(text, &fault)) return;
  if (fault.too_large) {
    refuse(where, Fault::unreadable, "holds a number too large for any film");
  }
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(fault.byte, text.size()));
  Error error{Fault::unreadable, "isn't valid JSON", where.place(), ""};
  error.where.line = first_line + static_cast<int>(std::count(text.begin(), end, '\n'));
  if (fault.byte > text.size()) {
    error.what = "is cut short: the JSON in it doesn't end";
    error.remedy = "send the file again";
  }
  throw Refusal{error};
}

}  // namespace

bool is_json_lines(std::string_view text) {
  const auto [line, rest] = head_of(text);
  if (trim(rest).empty() || (!line.starts_with('{') && !line.starts_with('['))) return false;
  // A document that is merely spread over lines has no whole value on its first.
  return value_length(line) == line.size();
}

std::string list_of_lines(std::string_view text) {
  std::string list;
  list.reserve(text.size() + text.size() / 64);
  bool first = true;
  list += '[';
  while (!text.empty()) {
    const auto end = std::min(text.find('\n'), text.size());
    const auto line = trim(text.substr(0, end));
    if (!line.empty()) {
      // The comma stands before a value, so that a fault is still on the line it is on.
      if (!first) list += ',';
      first = false;
      list += line;
    }
    if (end < text.size()) list += '\n';
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  list += ']';
  return list;
}

std::string with_nulls(std::string_view text) {
  std::string out;
  std::size_t done = 0;
  each_outside_strings(text, [&](std::size_t i) {
    if (i < done || (text[i] != '-' && text[i] != 'N' && text[i] != 'I')) return true;
    if (const std::size_t length = token_length(text, i)) {
      out += text.substr(done, i - done);
      out += "null";
      done = i + length;
    }
    return true;
  });
  out += text.substr(done);
  return out;
}

void refuse_json(std::string_view text, bool lines, const Spot& where) {
  if (is_too_deep(text)) {
    refuse(where, Fault::unreadable, "is nested too deeply for a landmark file");
  }
  int line = 1;
  if (!lines) refuse_fault(text, line, where);
  for (const auto one : split(text, '\n')) {
    if (!trim(one).empty()) refuse_fault(one, line, where);
    ++line;
  }
  refuse(where, Fault::unreadable, "isn't valid JSON");
}

}  // namespace rangecheck::intake
