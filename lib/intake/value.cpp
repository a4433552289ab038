// SPDX-License-Identifier: MIT
#include "intake/value.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "base/text.hpp"
#include "intake/byte_order_mark.hpp"
#include "intake/json_text.hpp"

namespace rangecheck::intake {
namespace {

namespace dom = simdjson::dom;

/// A minute at 240 Hz with 33 points in picture and space is 4 million values. Has to stay below
/// 0xFFFFFF, up to which simdjson tells how long a list is.
constexpr std::size_t most_values = 16'000'000;
/// A value and the comma behind it: a shorter text can't hold too many.
constexpr std::size_t bytes_of_value = 2;
/// simdjson counts the document itself, and an empty list or object not at all.
constexpr std::size_t parser_depth = deepest + 1;

bool holds_too_many(std::string_view text) {
  return text.size() / bytes_of_value > most_values &&
         static_cast<std::size_t>(std::count(text.begin(), text.end(), ',')) > most_values;
}

}  // namespace

bool Value::is_empty() const {
  const Kind is = kind();
  return is == Kind::null || ((is == Kind::list || is == Kind::object) && size() == 0);
}

std::size_t Value::size() const {
  dom::array list;
  if (!element_.get(list)) return list.size();
  dom::object object;
  return element_.get(object) ? 0 : object.size();
}

std::optional<std::string_view> Value::text() const {
  std::string_view text;
  if (element_.get(text)) return std::nullopt;
  return text;
}

bool Value::is_true() const {
  bool flag = false;
  return !element_.get(flag) && flag;
}

std::optional<long long> Value::whole() const {
  const auto value = number();
  constexpr double largest = 1e15;  // whole numbers are exact in a double up to here
  if (!value || std::abs(*value) > largest || std::trunc(*value) != *value) return std::nullopt;
  return static_cast<long long>(*value);
}

std::optional<Value> Value::find(std::string_view key) const {
  dom::element found;
  dom::object object;
  if (element_.get(object) || object.at_key(key).get(found)) return std::nullopt;
  return Value(found);
}

std::optional<Value> Value::at(std::size_t index) const {
  dom::element found;
  dom::array list;
  if (element_.get(list) || list.at(index).get(found)) return std::nullopt;
  return Value(found);
}

namespace {

/// Of the document before, in this thread. The memory of a parser is a multiple of its text, and
/// the system's fresh pages for it cost as much as parsing.
thread_local std::unique_ptr<dom::parser> left_parser;
/// Nobody keeps the memory of a giant.
constexpr std::size_t most_kept_bytes = std::size_t{8} << 20;

std::unique_ptr<dom::parser> any_parser() {
  return left_parser ? std::move(left_parser) : std::make_unique<dom::parser>();
}

/// `text` from there on; false where it is no JSON.
bool parse(dom::parser& parser, const std::string& text, std::size_t from, dom::element& root) {
  const std::size_t size = text.size() - from;
  const bool is_padded = text.capacity() - text.size() >= simdjson::SIMDJSON_PADDING;
  if (parser.capacity() < size && parser.allocate(size, parser_depth)) return false;
  return !parser.parse(text.data() + from, size, !is_padded).get(root);
}

/// One bit of 64: keys that differ in it are different. Those of a point nearly always do.
std::uint64_t mark_of(std::string_view key) {
  const std::size_t letter = key.empty() ? 0 : static_cast<unsigned char>(key.front());
  return std::uint64_t{1} << ((letter + 7 * key.size()) % 64);
}

void refuse_same_keys(Value object, const Spot& where) {
  std::vector<std::string_view> keys;
  for (const auto [key, each] : object.members()) keys.push_back(key);
  std::sort(keys.begin(), keys.end());
  const auto twin = std::adjacent_find(keys.begin(), keys.end());
  if (twin == keys.end()) return;
  refuse(where.at(*twin), Fault::unreadable, "stands twice in one object", "keep one of the two");
}

/// Refuses an object with one key twice, anywhere in `value`: readers would differ on which counts
/// (RFC 8259, section 4).
void refuse_twins(Value value, const Spot& where) {
  std::size_t i = 0;
  for (const Value each : value.list()) {
    if (each.is_container()) refuse_twins(each, where.at(i));
    ++i;
  }
  std::uint64_t marks = 0;
  bool any_alike = false, any_inside = false;
  for (const auto [key, each] : value.members()) {
    const std::uint64_t mark = mark_of(key);
    any_alike = any_alike || (marks & mark) != 0;
    marks |= mark;
    any_inside = any_inside || each.is_container();
  }
  if (any_alike) refuse_same_keys(value, where);
  if (!any_inside) return;
  for (const auto [key, each] : value.members()) {
    if (each.is_container()) refuse_twins(each, where.at(key));
  }
}

}  // namespace

Document::Document(const std::string& text, const Spot& where) {
  const std::size_t from = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  const std::string_view content = std::string_view(text).substr(from);
  if (trim(content).empty()) refuse(where, Fault::unreadable, "is empty");
  if (holds_too_many(content)) {
    refuse(where, Fault::unreadable, "holds more than 16 million values",
           "cut the film to the swing itself");
  }
  parser_ = any_parser();
  const bool lines = is_json_lines(content);
  if (!(lines ? parse(*parser_, list_of_lines(content), 0, root_)
              : parse(*parser_, text, from, root_))) {
    const std::string cleaned = with_nulls(content);
    if (!parse(*parser_, lines ? list_of_lines(cleaned) : cleaned, 0, root_))
      refuse_json(cleaned, lines, where);
  }
  refuse_twins(root(), where);
}

Document::~Document() {
  if (parser_ && parser_->capacity() <= most_kept_bytes) left_parser = std::move(parser_);
}

std::optional<double> number_or_null(Value value, const Spot& where) {
  const auto number = value.number();
  if (!number && value.kind() != Kind::null) {
    refuse(where, Fault::bad_value, "should be a number, is " + kind_of(value));
  }
  return number;
}

std::string kind_of(Value value) {
  switch (value.kind()) {
    case Kind::null:
      return "null";
    case Kind::object:
      return "an object";
    case Kind::list:
      return "an array";
    case Kind::text:
      return "the text " + rangecheck::quoted(*value.text());
    case Kind::flag:
      return value.is_true() ? "true" : "false";
    default:
      return "a number";
  }
}

}  // namespace rangecheck::intake
