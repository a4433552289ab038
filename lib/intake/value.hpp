// SPDX-License-Identifier: MIT
// A parsed landmark document, seen one value at a time, and where in it a reader is. Inside this
// room a reader that can't go on throws Refusal; read_landmarks catches it and hands out the Error.
//
// The document is simdjson's flat tape: strings and lists are views into it, nothing is copied, and
// a Value is two words. Lists and objects are walked in order (range for); asking for the n-th
// entry walks to it.
#pragma once

#include <simdjson.h>

#include <cstddef>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "intake/spot.hpp"

namespace rangecheck::intake {

enum class Kind { null, flag, number, text, list, object };

class List;
class Members;

/// One value of a document, which has to outlive it. What is asked of every number of a film stands
/// here, so that it costs no call.
class Value {
 public:
  explicit Value(simdjson::dom::element element) : element_(element) {}

  Kind kind() const {
    using Type = simdjson::dom::element_type;
    switch (element_.type()) {
      case Type::ARRAY:
        return Kind::list;
      case Type::OBJECT:
        return Kind::object;
      case Type::STRING:
        return Kind::text;
      case Type::BOOL:
        return Kind::flag;
      case Type::NULL_VALUE:
        return Kind::null;
      default:
        return Kind::number;
    }
  }
  bool is_list() const { return kind() == Kind::list; }
  bool is_object() const { return kind() == Kind::object; }
  bool is_container() const { return element_.is_array() || element_.is_object(); }
  /// Null, [] or {}: how the dialects say that nobody was found.
  bool is_empty() const;
  /// Entries of a list or an object; 0 for anything else.
  std::size_t size() const;

  /// The number, also of a whole one; nothing for any other kind.
  std::optional<double> number() const {
    double number = 0;
    if (element_.get(number)) return std::nullopt;
    return number;
  }
  /// The text; nothing for any other kind.
  std::optional<std::string_view> text() const;
  /// True for true.
  bool is_true() const;
  /// The whole number, also when written as 3.0; nothing for any other kind or a broken one.
  std::optional<long long> whole() const;

  /// The value under `key` of an object; nothing when there is none or this is no object.
  std::optional<Value> find(std::string_view key) const;
  bool has(std::string_view key) const { return find(key).has_value(); }
  /// The n-th entry of a list; nothing beyond its end or when this is no list. Walks.
  std::optional<Value> at(std::size_t index) const;
  std::optional<Value> front() const { return at(0); }

  /// The entries of a list (none for anything else): for (const Value each : value.list()) …
  List list() const;
  /// The members of an object (none for anything else): for (const auto [key, each] : …) …
  Members members() const;

 private:
  simdjson::dom::element element_;
};

/// One member of an object.
struct Member {
  std::string_view key;
  Value value;
};

/// Walks what simdjson walks, entry by entry, as `Entry`s.
template <class Container, class Entry>
class Entries {
  using Inner = typename Container::iterator;

 public:
  class Iterator {
   public:
    explicit Iterator(Inner inner) : inner_(inner) {}
    Entry operator*() const {
      if constexpr (requires { inner_.key(); }) {
        return {inner_.key(), Value(inner_.value())};
      } else {
        return Entry(*inner_);
      }
    }
    Iterator& operator++() {
      ++inner_;
      return *this;
    }
    bool operator!=(const Iterator& other) const { return inner_ != other.inner_; }

   private:
    Inner inner_;
  };

  Entries() = default;
  explicit Entries(Container container) : begin_(container.begin()), end_(container.end()) {}
  Iterator begin() const { return Iterator(begin_); }
  Iterator end() const { return Iterator(end_); }

 private:
  Inner begin_, end_;
};

class List : public Entries<simdjson::dom::array, Value> {
  using Entries::Entries;
};
class Members : public Entries<simdjson::dom::object, Member> {
  using Entries::Entries;
};

inline List Value::list() const {
  simdjson::dom::array list;
  return element_.get(list) ? List() : List(list);
}

inline Members Value::members() const {
  simdjson::dom::object object;
  return element_.get(object) ? Members() : Members(object);
}

/// A parsed text. Moving it keeps its Values good.
class Document {
 public:
  /// A text with simdjson::SIMDJSON_PADDING bytes of capacity behind it is read where it lies, any
  /// other copied; it is not needed afterwards. Several values on lines of their own (JSON Lines)
  /// become one list of them. NaN, Infinity and -Infinity, which are not JSON but are written by
  /// some estimators, become null. Depth and number of values are bounded, and a key stands once in
  /// an object. Throws Refusal with the line of a fault.
  Document(const std::string& text, const Spot& where);
  Document(Document&&) = default;
  ~Document();
  Value root() const { return Value(root_); }

 private:
  std::unique_ptr<simdjson::dom::parser> parser_;
  simdjson::dom::element root_;
};

/// The number, or nothing for null. Anything else is refused.
std::optional<double> number_or_null(Value value, const Spot& where);

/// The number, or NaN for null. Anything else is refused. `where` is of the list or object that has
/// the value at `step`, an index or a key: films are made of these, and few are ever refused.
template <class Step>
double number_or_nan(Value value, const Spot& where, Step step) {
  if (const auto number = value.number()) return *number;
  return number_or_null(value, where.at(step)).value_or(std::numeric_limits<double>::quiet_NaN());
}

/// "an array", "a text", …: what a value is, for messages.
std::string kind_of(Value value);

}  // namespace rangecheck::intake
