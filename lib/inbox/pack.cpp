// SPDX-License-Identifier: MIT
#include "inbox/pack.hpp"

#include <algorithm>
#include <chrono>
#include <optional>
#include <vector>

#include "base/instant.hpp"
#include "history/store.hpp"
#include "inbox/given.hpp"
#include "intake/record.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {
namespace {

/// What can be compared, and when it came.
struct Sent {
  intake::Sender sender;
  history::Arrival arrival;
};

/// Nothing where the sender can't be told.
std::vector<std::optional<Sent>> sent(const std::vector<intake::Location>& locations) {
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  std::vector<std::optional<Sent>> out;
  for (const auto& location : locations) {
    auto& each = out.emplace_back();
    auto sender = intake::read_sender(location);
    if (!sender) continue;
    const auto at = parse_instant(sender->received).value_or(now);
    each = Sent{*std::move(sender), {at, location.id}};
  }
  return out;
}

/// Indices of the submissions that one is compared with, in order of arrival.
std::vector<std::size_t> earlier_than(std::size_t one,
                                      const std::vector<std::optional<Sent>>& all) {
  std::vector<std::size_t> out;
  if (!all[one]) return out;
  const intake::Sender& its = all[one]->sender;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i] || !(all[i]->arrival < all[one]->arrival)) continue;
    const intake::Sender& sender = all[i]->sender;
    if (sender.student == its.student && sender.club == its.club && sender.swing == its.swing)
      out.push_back(i);
  }
  std::ranges::sort(out, {}, [&](std::size_t i) { return all[i]->arrival; });
  return out;
}

Result<std::string> packed(std::size_t one, const std::vector<intake::Location>& locations,
                           const std::vector<std::optional<Sent>>& all) {
  auto record = intake::pack(locations[one]);
  if (!record) return record.error();
  for (const std::size_t i : earlier_than(one, all)) {
    auto earlier = intake::pack(locations[i]);
    if (!earlier) return earlier.error();
    record->earlier.push_back(*std::move(earlier));
  }
  return intake::record_line(*record);
}

}  // namespace

Result<Nothing> pack(const std::filesystem::path& inbox,
                     const std::function<bool(const Packed&)>& take) {
  const auto locations = submissions_in(inbox);
  if (!locations) return locations.error();
  const auto all = sent(*locations);
  for (std::size_t i = 0; i < locations->size(); ++i) {
    const std::string& id = (*locations)[i].id;
    const auto line = packed(i, *locations, all);
    if (line) {
      if (!take({id, *line})) break;
      continue;
    }
    const report::SetAside why{id, line.error()};
    if (!take({id, report::set_aside_json(why, std::nullopt), &why})) break;
  }
  return Nothing{};
}

}  // namespace rangecheck::inbox
