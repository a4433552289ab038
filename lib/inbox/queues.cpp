// SPDX-License-Identifier: MIT
#include "inbox/queues.hpp"

#include <algorithm>
#include <map>
#include <string>

#include "base/instant.hpp"

namespace rangecheck::inbox {

Result<std::vector<Queue>> queues_of(std::span<const intake::Location> locations,
                                     std::span<const std::optional<intake::Sender>> senders,
                                     const Naming& naming, const history::Store& store,
                                     std::chrono::sys_seconds now) {
  std::vector<Queue> queues;
  std::map<std::string, std::size_t> queue_of;  // by student
  for (std::size_t i = 0; i < locations.size(); ++i) {
    const std::string id = naming.of_submission(locations[i].id);
    const auto& sender = senders[i];
    if (!sender) {
      queues.push_back({{i, {now, id}}});
      continue;
    }
    auto at = parse_instant(sender->received);
    if (!at) {
      const auto recorded = store.first_recorded(naming.of_student(sender->student), id);
      if (!recorded) return recorded.error();
      at = recorded->value_or(now);
    }
    const auto [place, is_new] = queue_of.emplace(sender->student, queues.size());
    if (is_new) queues.emplace_back();
    queues[place->second].push_back({i, {*at, id}});
  }
  for (auto& queue : queues) std::ranges::sort(queue, {}, &Turn::arrival);
  return queues;
}

Order::Order(std::span<const Queue> queues) {
  for (std::size_t queue = 0; queue < queues.size(); ++queue)
    for (std::size_t place = 0; place < queues[queue].size(); ++place)
      turns_.emplace(queues[queue][place].arrival.submission, std::pair(queue, place));
}

Waits Order::waits(std::size_t queue, std::size_t place) const {
  return [this, queue, place](const std::string& submission) {
    const auto turn = turns_.find(submission);
    if (turn == turns_.end()) return false;
    return turn->second.first != queue || turn->second.second >= place;
  };
}

}  // namespace rangecheck::inbox
