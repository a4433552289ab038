// SPDX-License-Identifier: MIT
#include "inbox/lines.hpp"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "base/text.hpp"

namespace rangecheck::inbox {

/// Takes what is there next in place of what has been used up; false at the end.
Result<bool> Lines::fill() {
  constexpr std::size_t chunk = std::size_t{1} << 16;
  held_.resize(chunk);
  used_ = 0;
  ssize_t got = 0;
  do {
    got = ::read(descriptor_, held_.data(), chunk);
  } while (got < 0 && errno == EINTR);
  held_.resize(static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
  if (got >= 0) return got > 0;
  return Error{Fault::io,
               "can't read standard input: " + std::generic_category().message(errno),
               {},
               "give records on standard input"};
}

Result<std::optional<Line>> Lines::next_of_any() {
  Line line{.number = ++number_, .text = {}};
  while (true) {
    if (used_ == held_.size()) {
      const auto more = fill();
      if (!more) return more.error();
      // The last line may have no end.
      if (!*more && line.text.empty() && !line.too_long) return std::optional<Line>();
      if (!*more) return std::optional(std::move(line));
    }
    const std::size_t end = std::min(held_.find('\n', used_), held_.size());
    line.too_long = line.too_long || end - used_ > longest_ - line.text.size();
    if (line.too_long)
      std::string().swap(line.text);
    else
      line.text.append(held_, used_, end - used_);
    used_ = end;
    if (end == held_.size()) continue;
    ++used_;
    return std::optional(std::move(line));
  }
}

Result<std::optional<Line>> Lines::next() {
  while (true) {
    auto line = next_of_any();
    if (!line || !*line || (*line)->too_long || !trim((*line)->text).empty()) return line;
  }
}

}  // namespace rangecheck::inbox
