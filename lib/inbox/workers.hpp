// SPDX-License-Identifier: MIT
// Inside inbox only.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace rangecheck::inbox {

/// Calls `work(i)` once for each i below `count`, on `workers` threads.
template <class Work>
void on_workers(unsigned workers, std::size_t count, const Work& work) {
  std::atomic<std::size_t> next = 0;
  const auto take_turns = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::jthread> threads;
  for (std::size_t i = 1; i < std::min<std::size_t>(workers, count); ++i)
    threads.emplace_back(take_turns);
  take_turns();
}

}  // namespace rangecheck::inbox
