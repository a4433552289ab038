// SPDX-License-Identifier: MIT
// Whether the files of a submission are what they were. Inside inbox only.
#pragma once

#include <chrono>
#include <span>
#include <string>
#include <vector>

#include "intake/submission.hpp"

namespace rangecheck::inbox {

struct Stamp {
  /// Of names, sizes, times of change to the nanosecond and inodes: as long as it is the same, no
  /// file need be read to know that it says the same. Empty when they can't all be looked at.
  std::string hash;
  /// Of the file that was changed last, or put into the folder or taken out of it.
  std::chrono::system_clock::time_point changed;
};

/// Looks at the files, and reads none.
Stamp stamp_of(const intake::Location& location);
/// Of all, by so many workers.
std::vector<Stamp> stamps_of(std::span<const intake::Location> locations, unsigned workers);

/// Hash of the names and all bytes of the files; empty when they can't all be read.
std::string contents_hash(const intake::Location& location);

/// Whether a file has changed less than `settle` before `now`. One that is that far or farther in
/// the future has a wrong clock, and is not waited for.
bool is_recent(const Stamp& stamp, std::chrono::seconds settle,
               std::chrono::system_clock::time_point now);

}  // namespace rangecheck::inbox
