// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace rangecheck::intake {

/// Where in a document a value is: a chain of steps that live on the callers' stacks, spelled out
/// as a JSON pointer only when an error needs it. Never keep one longer than the one it was made
/// from.
class Spot {
 public:
  explicit Spot(std::string_view file) : file_(file) {}
  Spot at(std::string_view key) const { return {this, key, std::nullopt}; }
  Spot at(std::size_t index) const { return {this, {}, index}; }
  /// The same place, known to be in this frame of the film (0-based). A frame that is known already
  /// stays: in a film of many files it is the file that tells.
  Spot in_frame(std::size_t frame) const {
    Spot same = *this;
    if (!frame_) same.frame_ = frame;
    return same;
  }
  Place place() const;

 private:
  Spot(const Spot* up, std::string_view key, std::optional<std::size_t> index)
      : up_(up), file_(up->file_), key_(key), index_(index), frame_(up->frame_) {}

  const Spot* up_ = nullptr;
  std::string_view file_;
  std::string_view key_;
  std::optional<std::size_t> index_;
  std::optional<std::size_t> frame_;
};

/// Thrown inside the room only.
struct Refusal {
  Error error;
};

[[noreturn]] void refuse(const Spot& where, Fault fault, std::string what, std::string remedy = "");

}  // namespace rangecheck::intake
