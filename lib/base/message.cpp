// SPDX-License-Identifier: MIT
#include "base/message.hpp"

#include <fmt/format.h>

#include <optional>

namespace rangecheck {
namespace {

std::string text_of(const Words& words, const Number& number) {
  std::string text = fmt::format("{:.{}f}", number.value, number.decimals);
  if (const auto point = text.find('.'); point != std::string::npos)
    text.replace(point, 1, words.say("numbers.decimal-mark"));
  return text;
}

std::string text_of(const Words&, const std::string& text) { return text; }
std::string text_of(const Words&, std::size_t count) { return std::to_string(count); }

std::string text_of(const Words& words, const std::vector<Message>& messages) {
  std::vector<std::string> each;
  for (const auto& message : messages) each.push_back(say(words, message));
  return listed(words, each);
}

}  // namespace

bool Argument::operator==(const Argument& other) const {
  return name == other.name && value == other.value;
}

Message as_written(std::string text) {
  return text.empty() ? Message{} : Message{.id = {}, .arguments = {{"", std::move(text)}}};
}

Argument said(std::string name, Message message) {
  return {std::move(name), std::vector{std::move(message)}};
}

Message name_as_message(LandmarkId id) {
  Message joint{"joints." + std::string(key_of(id.joint))};
  if (id.side == Side::centre) return joint;
  return {id.side == Side::lead ? "sides.lead" : "sides.trail", {said("joint", std::move(joint))}};
}

std::string say(const Words& words, const Message& message) {
  std::vector<Filling> fillings;
  std::optional<std::size_t> count;
  for (const auto& [name, value] : message.arguments) {
    fillings.push_back(
        {name, std::visit([&](const auto& of) { return text_of(words, of); }, value)});
    if (const auto* number = std::get_if<std::size_t>(&value); number && name == "count")
      count = *number;
  }
  if (!message.id.empty()) return words.say_with(count, message.id, fillings);
  return fillings.empty() ? "" : fillings.front().text;
}

std::string in_english(const Message& message) { return say(english(), message); }

}  // namespace rangecheck
