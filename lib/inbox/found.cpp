// SPDX-License-Identifier: MIT
#include "inbox/found.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "inbox/folders.hpp"

namespace rangecheck::inbox {
namespace {

Result<Nothing> refuse_unknown(const Job& job, std::span<const intake::Location> locations) {
  if (!job.redo) return Nothing{};
  for (const auto& id : *job.redo) {
    if (std::ranges::find(locations, id, &intake::Location::id) != locations.end()) continue;
    std::vector<std::string_view> ids;
    for (const auto& location : locations) ids.push_back(location.id);
    const std::string near = nearest(id, ids);
    return error_at(Fault::bad_value, "holds no submission " + rangecheck::quoted(id), job.inbox,
                    near.empty() ? "name one as the inbox does" : "did you mean " + near + "?");
  }
  return Nothing{};
}

}  // namespace

Result<Found> find_all(const Job& job) {
  auto taught = read_taught(job.profiles, job.roster);
  if (!taught) return taught.error();
  auto locations = submissions_in(job.inbox);
  if (!locations) return locations.error();
  if (auto refused = refuse_unknown(job, *locations); !refused) return refused.error();
  return Found{*std::move(taught), *std::move(locations)};
}

}  // namespace rangecheck::inbox
