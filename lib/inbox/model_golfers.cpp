// SPDX-License-Identifier: MIT
#include "inbox/model_golfers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <mutex>
#include <set>

#include "base/text.hpp"
#include "inbox/given.hpp"
#include "inbox/workers.hpp"

namespace rangecheck::inbox {
namespace {

/// What one submission came to.
struct Model {
  std::optional<report::SetAside> set_aside = {};
  std::string profile;  ///< that it was held against; empty: it is of another club or swing
  std::vector<grade::ModelValue> values = {};
};

Result<const grade::Profile*> find_base(const grade::ProfileSet& set, const std::string& id) {
  const auto found = std::ranges::find(set.profiles, id, &grade::Profile::id);
  if (found != set.profiles.end()) return &*found;
  std::vector<std::string_view> ids;
  for (const auto& profile : set.profiles) ids.push_back(profile.id);
  const std::string near = nearest(id, ids);
  return Error{Fault::bad_value,
               "there is no profile " + rangecheck::quoted(id) + " that names a club",
               {},
               near.empty() ? "" : "did you mean " + near + "?"};
}

/// The numbers that the films show of a golfer whom the profile is held to as it stands.
std::vector<grade::ModelValue> values_of(const report::Graded& graded) {
  std::set<std::string> changed;
  for (const auto& change : graded.grade.changes) changed.insert(change.check.id);
  std::vector<grade::ModelValue> out;
  for (const auto& result : graded.grade.results) {
    const bool by_eye = result.check.subject == grade::Subject::measured && !result.note.empty();
    if (!result.value_si || by_eye || changed.contains(result.check.id)) continue;
    out.push_back(
        {graded.student, result.check.id, *result.value_si, result.standard_uncertainty_si});
  }
  return out;
}

/// Submissions of another club or swing than the base's are none of its models.
bool is_like(const grade::Profile& base, const intake::Submission& submission,
             const grade::ProfileSet& set) {
  const auto family = set.club_families.find(kebab(submission.club));
  return family != set.club_families.end() && family->second == base.club_family &&
         submission.swing == base.swing;
}

Result<Model> look_at(const intake::Location& location, const Taught& taught,
                      const grade::Profile* base) {
  auto submission = intake::read_submission(location, taught.roster, taught.layouts);
  if (!submission) return submission.error();
  if (base && !is_like(*base, *submission, taught.profiles)) return Model{};
  if (base) submission->golfer.style = base->style;
  const auto graded = grade_one(*submission, taught.profiles);
  if (!graded) return graded.error();
  return Model{.profile = graded->grade.profile_id, .values = values_of(*graded)};
}

/// The profile that all submissions were held against, where no base was named.
Result<std::string> only_profile(const std::vector<Model>& models) {
  std::map<std::string, std::size_t> counts;
  for (const auto& model : models)
    if (!model.set_aside) ++counts[model.profile];
  if (counts.size() == 1) return counts.begin()->first;
  if (counts.empty())
    return Error{Fault::bad_value, "no submission could be graded", {}, "see what was set aside"};
  std::string list;
  for (const auto& [id, count] : counts)
    list += fmt::format("{}{} ({})", list.empty() ? "" : ", ", id, count);
  return Error{Fault::bad_value,
               "submissions are held against different profiles: " + list,
               {},
               "name one with --base"};
}

std::vector<Model> look_at_all(const ModelJob& job, const Taught& taught,
                               const std::vector<intake::Location>& locations,
                               const grade::Profile* base) {
  std::vector<Model> models(locations.size());
  std::mutex telling;
  std::size_t done = 0;
  on_workers(workers_meant(job.workers), locations.size(), [&](std::size_t i) {
    const auto look = [&]() -> Result<Model> {
      try {
        return look_at(locations[i], taught, base);
      } catch (const std::exception& thrown) {
        return not_worked_through(thrown);
      }
    };
    auto model = look();
    if (model)
      models[i] = *std::move(model);
    else
      models[i].set_aside = report::SetAside{.submission = locations[i].id, .error = model.error()};
    const std::scoped_lock one_at_a_time(telling);
    ++done;
    if (job.on_progress)
      job.on_progress({.done = done,
                       .of = locations.size(),
                       .submission = locations[i].id,
                       .set_aside = models[i].set_aside ? &*models[i].set_aside : nullptr});
  });
  return models;
}

}  // namespace

Result<ModelGolfers> model_golfers(const ModelJob& job) {
  const auto taught = read_taught(job.profiles, job.roster);
  if (!taught) return taught.error();
  const auto locations = submissions_in(job.inbox);
  if (!locations) return locations.error();
  std::string id = job.base;
  const grade::Profile* base = nullptr;
  if (!id.empty()) {
    const auto found = find_base(taught->profiles, id);
    if (!found) return found.error();
    base = *found;
  }
  const auto models = look_at_all(job, *taught, *locations, base);
  if (!base) {
    const auto only = only_profile(models);
    if (!only) return only.error();
    base = *find_base(taught->profiles, *only);
  }
  ModelGolfers out{.base = *base, .values = {}};
  for (const auto& model : models) {
    out.set_aside += model.set_aside.has_value();
    if (model.set_aside) continue;
    ++(model.profile.empty() ? out.others : out.submissions);
    out.values.insert(out.values.end(), model.values.begin(), model.values.end());
  }
  return out;
}

}  // namespace rangecheck::inbox
