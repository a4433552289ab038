// SPDX-License-Identifier: MIT
// What one room tells people, in no language yet: rooms say which sentence of the catalogue it is
// (base/words.hpp) and what fills its places; reports say it in the reader's language.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/skeleton.hpp"
#include "base/words.hpp"

namespace rangecheck {

/// A number as a sentence shows it, with the decimal mark of its language.
struct Number {
  double value = 0;
  int decimals = 0;
  bool operator==(const Number&) const = default;
};

struct Message;

/// What fills a place: text as it stands, a number, a count (one of the name "count" chooses
/// between a sentence's forms), or other sentences, which are listed where they are several.
struct Argument {
  std::string name;
  std::variant<std::string, Number, std::size_t, std::vector<Message>> value;
  bool operator==(const Argument& other) const;
};

/// The sentence `id` of the catalogue. One without an id is text that somebody wrote, in whatever
/// language that was; one with neither says nothing.
struct Message {
  std::string id = {};
  std::vector<Argument> arguments = {};

  bool empty() const { return id.empty() && arguments.empty(); }
  bool operator==(const Message& other) const = default;
};

/// `text` as a message.
Message as_written(std::string text);
/// An argument that is one other sentence.
Argument said(std::string name, Message message);

/// "lead heel", "ball".
Message name_as_message(LandmarkId id);

/// The message in the words of `words`; "" for one that says nothing.
std::string say(const Words& words, const Message& message);
/// The same as the program's own documents have it, whatever a coach's catalogue says.
std::string in_english(const Message& message);

}  // namespace rangecheck
