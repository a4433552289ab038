// SPDX-License-Identifier: MIT
// The files of a profiles folder that are no profiles: clubs.yaml, limits.yaml, students/ID.yaml.
#include <algorithm>
#include <set>

#include "base/text.hpp"
#include "grade/profile_file.hpp"

namespace rangecheck::grade {
namespace {

void read_family(yaml::Map& families, const std::string& family, ProfileSet& set) {
  auto names = optional_words(families, family).value_or(std::vector<std::string>{});
  names.push_back(family);
  for (const auto& name : names) {
    const auto [known, is_new] = set.club_families.emplace(kebab(name), family);
    if (!is_new && known->second != family)
      families.fault(family, rangecheck::quoted(name) + " is in " + known->second + " as well");
  }
}

void read_switched_off(yaml::Map& map, const Known& known, ProfileSet::BodyLimit& limit) {
  limit.switch_off = optional_words(map, "switch-off").value_or(std::vector<std::string>{});
  for (auto& id : limit.switch_off) {
    const auto check =
        find_check(id, Position::address, known, rangecheck::quoted(id) + " is no check");
    if (check)
      id = check->id;
    else
      map.fault("switch-off", check.error().what, check.error().remedy);
  }
}

/// A map from numeric checks to something. `read` gets the map, the key and the check it names.
template <class Read>
void read_by_check(yaml::Map& map, std::string_view key, const Known& known, Faults& faults,
                   Read read) {
  const YAML::Node found = map.node(key);
  if (!found) return;
  yaml::Map checks(found, map.file(), map.place(key).key);
  if (!found.IsMap()) return finish(checks, faults);
  std::set<std::string> written;
  for (const auto& entry : found) {
    const std::string& word = entry.first.Scalar();
    const auto check = find_check(word, Position::address, known, "there is no such check");
    if (!check) {
      checks.fault(word, check.error().what, check.error().remedy);
    } else if (!check->named.dimension) {
      checks.fault(word, "is judged by words and has no band", "use switch-off");
    } else if (!written.insert(check->id).second) {
      checks.fault(word, check->id + " stands here twice", "keep one of the two");
    } else {
      read(checks, word, *check);
    }
    checks.node(word);
  }
  finish(checks, faults);
}

void read_shift(yaml::Map& checks, const std::string& word, const CheckName& check,
                ProfileSet::BodyLimit& limit, Faults& faults) {
  yaml::Map map(checks.node(word), checks.file(), checks.place(word).key);
  const Dimension dimension = *check.named.dimension;
  Band by;
  if (const auto lower = map.optional_quantity("lower", dimension)) by.lower_si = lower->si;
  if (const auto upper = map.optional_quantity("upper", dimension)) by.upper_si = upper->si;
  const auto before = faults.size();
  finish(map, faults);
  if (!by.lower_si && !by.upper_si && faults.size() == before)
    checks.fault(word, "shifts nothing", "write { lower: -5 deg, upper: -5 deg }");
  limit.shift[check.id] = by;
}

ProfileSet::BodyLimit read_changes(yaml::Map& map, const std::string& language, const Known& known,
                                   Faults& faults) {
  ProfileSet::BodyLimit limit;
  limit.origin = origin_of(map.place(""));
  limit.because = {map.text("because"), language};
  read_switched_off(map, known, limit);
  read_by_check(map, "target", known, faults,
                [&](yaml::Map& checks, const std::string& word, const CheckName& check) {
                  const auto target = optional_target(checks, word, *check.named.dimension);
                  if (target) limit.target[check.id] = *target;
                });
  read_by_check(map, "shift", known, faults,
                [&](yaml::Map& checks, const std::string& word, const CheckName& check) {
                  read_shift(checks, word, check, limit, faults);
                });
  finish(map, faults);
  return limit;
}

}  // namespace

void read_clubs(const YAML::Node& document, const std::string& file, ProfileSet& set,
                Faults& faults) {
  yaml::Map map(document, file);
  require_version(map);
  if (const auto style = map.optional_text("default-style")) set.default_style = kebab(*style);
  const YAML::Node found = map.node("families");
  yaml::Map families(found, file, "families");
  finish(map, faults);
  if (found && found.IsMap())
    for (const auto& entry : found) read_family(families, entry.first.Scalar(), set);
  finish(families, faults);
}

std::map<std::string, ProfileSet::BodyLimit> read_limits(const YAML::Node& document,
                                                         const std::string& file,
                                                         const Known& known, Faults& faults) {
  yaml::Map map(document, file);
  require_version(map);
  const std::string language = language_of(map);
  const YAML::Node found = map.node("limits");
  yaml::Map limits(found, file, "limits");
  finish(map, faults);
  std::map<std::string, ProfileSet::BodyLimit> read;
  if (found && found.IsMap())
    for (const auto& entry : found) {
      const std::string& phrase = entry.first.Scalar();
      yaml::Map one(limits.node(phrase), file, limits.place(phrase).key);
      auto limit = read_changes(one, language, known, faults);
      limit.name = {phrase, language};
      limit.origin = origin_of(limits.place(phrase));
      read[kebab(phrase)] = std::move(limit);
    }
  finish(limits, faults);
  return read;
}

ProfileSet::BodyLimit read_student(const YAML::Node& document, const std::string& file,
                                   const Known& known, Faults& faults) {
  yaml::Map map(document, file);
  require_version(map);
  const std::string language = language_of(map);
  return read_changes(map, language, known, faults);
}

}  // namespace rangecheck::grade
