// SPDX-License-Identifier: MIT
#include "grade/advice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>
#include <utility>

#include "base/text.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::grade {
namespace {

/// Collects advice, each once: a part serves many profiles.
class Advice {
 public:
  void add(const Place& place, std::string key, std::string what, std::string remedy) {
    Error error{Fault::bad_profile, std::move(what), place, std::move(remedy)};
    error.where.key = std::move(key);
    if (told_.insert(to_string(error)).second) all_.push_back(std::move(error));
  }
  Faults take() { return std::move(all_); }

 private:
  Faults all_;
  std::set<std::string> told_;
};

bool is_off(const CheckPart& check) { return check.off.value_or(false); }

bool is_said(const std::optional<Written>& words) { return words && !words->empty(); }

const Place& place_of(const CheckPart& check, std::string_view key) {
  const AsWritten* found = check.written.find(key);
  return found ? found->place : check.place;
}

/// What the student who is worked on would look for in vain.
void on_words(const CheckPart& check, Advice& advice) {
  const auto missing = [&](std::string_view key, std::string_view what) {
    advice.add(check.place, check.name.id, fmt::format("says nothing under {}:", key),
               std::string(what));
  };
  if (check.accept && !is_said(check.low)) missing("outside", "say what is wrong with other words");
  if (check.target && check.target->band.lower_si && !is_said(check.low))
    missing("low", "say what is wrong below the band");
  if (check.target && check.target->band.upper_si && !is_said(check.high))
    missing("high", "say what is wrong above the band");
  if (!is_said(check.drill)) missing("drill", "say what to practise");
}

void on_check(const CheckPart& check, Advice& advice) {
  if (is_off(check)) {
    if (!check.target && !check.accept)
      advice.add(place_of(check, "off"), check.name.id, "switches off what nothing asks for",
                 "leave it out, or check the spelling of what it extends");
    return;
  }
  if (check.weight && *check.weight == 0)
    advice.add(place_of(check, "weight"), check.name.id,
               "has no weight: no grade counts it, and nobody is told to work on it",
               "write `off: true` to leave it out, or a weight");
  else
    on_words(check, advice);
}

struct Range {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
};

Range range_of(const CheckPart& check) {
  Range out;
  if (check.target && check.target->band.lower_si) out.low = *check.target->band.lower_si;
  if (check.target && check.target->band.upper_si) out.high = *check.target->band.upper_si;
  return out;
}

const CheckPart* asked(const ProfilePart& profile, std::string_view rule,
                       std::optional<Position> position) {
  const auto found = std::ranges::find_if(profile.checks, [&](const CheckPart& check) {
    return check.name.rule == rule && check.name.position == position && !is_off(check);
  });
  return found == profile.checks.end() ? nullptr : &*found;
}

/// A band that what the two others ask for never reaches.
void on_relation(const ProfilePart& profile, const CheckPart& whole, const Relation& relation,
                 Advice& advice) {
  const auto position = whole.name.position;
  const auto* more = asked(profile, relation.more, position);
  const auto* less = asked(profile, relation.less,
                           relation.since_address ? std::optional(Position::address) : position);
  if (!more || !less || !whole.target) return;
  const Range a = range_of(*more), b = range_of(*less), wanted = range_of(whole);
  if (relation.ratio && !(b.low > 0)) return;
  const Range left = relation.ratio ? Range{a.low / b.high, a.high / b.low}
                                    : Range{a.low - b.high, a.high - b.low};
  if (left.low <= wanted.high && left.high >= wanted.low) return;
  const auto text =
      to_string(Band{left.low, left.high}, *whole.name.named.dimension, whole.target->unit);
  advice.add(place_of(whole, "target"), whole.name.id,
             fmt::format("can't be met together with {} ({}) and {} ({}), which leave {}",
                         more->name.id, origin_of(place_of(*more, "target")), less->name.id,
                         origin_of(place_of(*less, "target")), text),
             "change one of the three bands");
}

void on_relations(const ProfilePart& profile, Advice& advice) {
  for (const auto& check : profile.checks)
    for (const auto& relation : relations())
      if (check.name.rule == relation.whole && !is_off(check))
        on_relation(profile, check, relation, advice);
}

/// Ids that are checked in some profile.
std::set<std::string> checked(const TaughtFiles& files) {
  std::set<std::string> ids;
  for (const auto& profile : files.set.profiles)
    for (const auto& check : profile.checks) ids.insert(check.id);
  return ids;
}

void on_drives(const TaughtFiles& files, const std::set<std::string>& ids, Advice& advice) {
  for (const auto& part : files.parts)
    for (const auto& check : part.checks)
      for (const auto& id : check.drives.value_or(std::vector<std::string>{}))
        if (!ids.contains(id))
          advice.add(check.drives_place, check.name.id,
                     fmt::format("drives {}, which no profile checks", id),
                     "leave it out, or add that check");
}

/// "limits.yaml:12" as the place that it is.
Place place_from(const std::string& origin) {
  const auto colon = origin.rfind(':');
  if (colon == std::string::npos) return {.file = origin, .line = {}, .frame = {}, .key = {}};
  return {.file = origin.substr(0, colon),
          .line = std::stoi(origin.substr(colon + 1)),
          .frame = {},
          .key = {}};
}

void on_changes(const std::map<std::string, ProfileSet::BodyLimit>& all,
                const std::set<std::string>& ids, Advice& advice) {
  for (const auto& [name, limit] : all) {
    const auto look = [&](const std::string& id) {
      if (!ids.contains(id))
        advice.add(place_from(limit.origin), name,
                   fmt::format("changes {}, which no profile checks", id), "leave it out");
    };
    for (const auto& id : limit.switch_off) look(id);
    for (const auto& [id, unused] : limit.target) look(id);
    for (const auto& [id, unused] : limit.shift) look(id);
  }
}

void on_own_measures(const TaughtFiles& files, Advice& advice) {
  for (const auto& measure : files.set.own_measures) {
    const auto is_used = [&](const Profile& profile) {
      return std::ranges::find(profile.checks, measure->rule().id, &Check::rule) !=
             profile.checks.end();
    };
    if (std::ranges::none_of(files.set.profiles, is_used))
      advice.add(place_from(std::string(measure->origin())), std::string(measure->rule().id),
                 "is measured, but no profile checks it", "give it a target in a profile");
  }
}

void on_unused_parts(const TaughtFiles& files, Advice& advice) {
  std::set<std::string> extended;
  for (const auto& part : files.parts) extended.insert(part.extends.begin(), part.extends.end());
  for (const auto& part : files.merged)
    if (!part.club && !extended.contains(part.id))
      advice.add(part.place, part.id, "names no club, and nothing extends it: it counts nowhere",
                 "add `club:`, or name it under extends:");
}

}  // namespace

Faults advice_on(const TaughtFiles& files) {
  Advice advice;
  const auto ids = checked(files);
  for (const auto& profile : files.merged) {
    if (!profile.club) continue;
    for (const auto& check : profile.checks) on_check(check, advice);
    on_relations(profile, advice);
  }
  on_unused_parts(files, advice);
  on_drives(files, ids, advice);
  on_own_measures(files, advice);
  on_changes(files.set.limits, ids, advice);
  on_changes(files.set.students, ids, advice);
  return advice.take();
}

Faults untranslated(const TaughtFiles& files, const rangecheck::Words& words) {
  Advice advice;
  const auto look = [&](const Written& said, const Place& place, const std::string& key) {
    if (!said.empty() && words.tell(said).language != words.language())
      advice.add(place, key, "has no translation: " + rangecheck::quoted(said.text),
                 "add a pair to words/advice/" + words.language() + ".yaml");
  };
  const std::optional<Written> none;  // words have no low and no high side
  for (const auto& profile : files.merged) {
    if (!profile.club) continue;
    if (const auto* title = profile.written.find("title"); title && profile.title)
      look(*profile.title, title->place, "title");
    for (const auto& check : profile.checks) {
      if (is_off(check)) continue;
      const std::string_view low = check.accept ? "outside" : "low";
      const std::pair<std::string_view, const std::optional<Written>*> all[] = {
          {low, &check.low},
          {"high", check.accept ? &none : &check.high},
          {"inside", &check.inside},
          {"drill", &check.drill},
          {"caution", &check.caution}};
      for (const auto& [key, said] : all)
        if (*said) look(**said, place_of(check, key), check.name.id);
    }
  }
  for (const auto* limits : {&files.set.limits, &files.set.students})
    for (const auto& [name, limit] : *limits)
      for (const auto* said : {&limit.name, &limit.because})
        look(*said, place_from(limit.origin), name);
  return advice.take();
}

}  // namespace rangecheck::grade
