// SPDX-License-Identifier: MIT
// What a set of profiles can say on a page and no registration of the program's says already.
#pragma once

#include <set>
#include <string>

#include "grade/profile.hpp"
#include "grade/reading.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::test {

/// The title that the program's own registration gives to the check, or "".
inline std::string_view registered_title(const grade::Check& check) {
  if (const auto* reading = grade::find_reading(check.rule)) return reading->title;
  const auto* rule = measure::find_rule(check.rule);
  return rule ? rule->title : "";
}

inline std::set<std::string> all_written(const grade::ProfileSet& set) {
  std::set<std::string> all;
  for (const auto& profile : set.profiles) {
    all.insert(profile.title.text);
    for (const auto& check : profile.checks) {
      if (check.title != registered_title(check)) all.insert(check.title);
      all.insert(check.accept.begin(), check.accept.end());
      const auto& [low, high, inside, drill, caution] = check.words;
      for (const auto* words : {&low, &high, &inside, &drill, &caution}) all.insert(words->text);
    }
  }
  for (const auto& measure : set.own_measures) {
    all.emplace(measure->rule().title);
    all.emplace(measure->rule().sign);
  }
  for (const auto* limits : {&set.limits, &set.students}) {
    for (const auto& [id, limit] : *limits) {
      all.insert(limit.name.text);
      all.insert(limit.because.text);
    }
  }
  all.erase("");
  return all;
}

}  // namespace rangecheck::test
