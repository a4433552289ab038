// SPDX-License-Identifier: MIT
#include "intake/value.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/text.hpp"
#include "intake/json_text.hpp"

namespace rangecheck::intake {
namespace {

namespace dom = simdjson::dom;

/// A minute at 240 Hz with 33 points in picture and space is 4 million values. Has to stay below
/// 0xFFFFFF, up to which simdjson tells how long a list is.
constexpr std::ptrdiff_t most_values = 16'000'000;
/// simdjson counts the document itself, and an empty list or object not at all.
constexpr std::size_t parser_depth = deepest + 1;

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

}  // namespace

template <>
Value Entries<dom::array, Value>::Iterator::operator*() const {
  return Value(*inner_);
}

template <>
Member Entries<dom::object, Member>::Iterator::operator*() const {
  return {inner_.key(), Value(inner_.value())};
}

Kind Value::kind() const {
  switch (element_.type()) {
    case dom::element_type::ARRAY:
      return Kind::list;
    case dom::element_type::OBJECT:
      return Kind::object;
    case dom::element_type::STRING:
      return Kind::text;
    case dom::element_type::BOOL:
      return Kind::flag;
    case dom::element_type::NULL_VALUE:
      return Kind::null;
    default:
      return Kind::number;
  }
}

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

std::optional<double> Value::number() const {
  double number = 0;
  if (element_.get(number)) return std::nullopt;
  return number;
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

List Value::list() const {
  dom::array list;
  return element_.get(list) ? List() : List(list);
}

Members Value::members() const {
  dom::object object;
  return element_.get(object) ? Members() : Members(object);
}

struct Document::Tape {
  dom::parser parser;
  dom::element root;

  bool parse(std::string_view text) {
    return !parser.allocate(text.size(), parser_depth) &&
           !parser.parse(text.data(), text.size()).get(root);
  }
};

namespace {

/// Refuses an object with one key twice, anywhere in `value`: readers would differ on which counts
/// (RFC 8259, section 4). `keys` is room for work.
void refuse_twins(Value value, const Spot& where, std::vector<std::string_view>& keys) {
  std::size_t i = 0;
  for (const Value each : value.list()) refuse_twins(each, where.at(i++), keys);
  if (!value.is_object()) return;
  keys.clear();
  for (const auto [key, each] : value.members()) keys.push_back(key);
  std::sort(keys.begin(), keys.end());
  const auto twin = std::adjacent_find(keys.begin(), keys.end());
  if (twin != keys.end()) {
    refuse(where.at(*twin), Fault::unreadable, "stands twice in one object", "keep one of the two");
  }
  for (const auto [key, each] : value.members()) refuse_twins(each, where.at(key), keys);
}

}  // namespace

Document::Document(std::string_view text, const Spot& where) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  if (trim(text).empty()) refuse(where, Fault::unreadable, "is empty");
  if (std::count(text.begin(), text.end(), ',') > most_values) {
    refuse(where, Fault::unreadable, "holds more than 16 million values",
           "cut the film to the swing itself");
  }
  const bool lines = is_json_lines(text);
  const auto tape = std::make_shared<Tape>();
  tape_ = tape;
  if (!tape->parse(lines ? list_of_lines(text) : text)) {
    const std::string cleaned = with_nulls(text);
    if (!tape->parse(lines ? list_of_lines(cleaned) : cleaned)) refuse_json(cleaned, lines, where);
  }
  std::vector<std::string_view> keys;
  refuse_twins(root(), where, keys);
}

Value Document::root() const { return Value(tape_->root); }

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
