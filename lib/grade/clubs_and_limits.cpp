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
std::optional<Error> read_by_check(yaml::Map& map, std::string_view key, const Known& known,
                                   Read read) {
  const YAML::Node found = map.node(key);
  if (!found) return std::nullopt;
  yaml::Map checks(found, map.file(), map.place(key).key);
  if (!found.IsMap()) return checks.finish();
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
    } else if (auto error = read(checks, word, *check)) {
      return error;
    }
    checks.node(word);
  }
  return checks.finish();
}

std::optional<Error> read_shift(yaml::Map& checks, const std::string& word, const CheckName& check,
                                ProfileSet::BodyLimit& limit) {
  yaml::Map map(checks.node(word), checks.file(), checks.place(word).key);
  const Dimension dimension = *check.named.dimension;
  Band by;
  if (const auto lower = map.optional_quantity("lower", dimension)) by.lower_si = lower->si;
  if (const auto upper = map.optional_quantity("upper", dimension)) by.upper_si = upper->si;
  if (!by.lower_si && !by.upper_si)
    checks.fault(word, "shifts nothing", "write { lower: -5 deg, upper: -5 deg }");
  limit.shift[check.id] = by;
  return map.finish();
}

Result<ProfileSet::BodyLimit> read_changes(yaml::Map& map, const std::string& language,
                                           const Known& known) {
  ProfileSet::BodyLimit limit;
  limit.origin = origin_of(map.place(""));
  limit.because = {map.text("because"), language};
  read_switched_off(map, known, limit);
  auto error =
      read_by_check(map, "target", known,
                    [&](yaml::Map& checks, const std::string& word, const CheckName& check) {
                      const auto target = optional_target(checks, word, *check.named.dimension);
                      if (target) limit.target[check.id] = *target;
                      return std::optional<Error>{};
                    });
  if (error) return *error;
  error = read_by_check(map, "shift", known,
                        [&](yaml::Map& checks, const std::string& word, const CheckName& check) {
                          return read_shift(checks, word, check, limit);
                        });
  if (error) return *error;
  if (auto fault = map.finish()) return *fault;
  return limit;
}

}  // namespace

std::optional<Error> read_clubs(const YAML::Node& document, const std::string& file,
                                ProfileSet& set) {
  yaml::Map map(document, file);
  require_version(map);
  if (const auto style = map.optional_text("default-style")) set.default_style = kebab(*style);
  yaml::Map families(map.node("families"), file, "families");
  if (auto error = map.finish()) return error;
  const YAML::Node found = map.node("families");
  if (!found || !found.IsMap()) return families.finish();
  for (const auto& entry : found) read_family(families, entry.first.Scalar(), set);
  return families.finish();
}

Result<std::map<std::string, ProfileSet::BodyLimit>> read_limits(const YAML::Node& document,
                                                                 const std::string& file,
                                                                 const Known& known) {
  yaml::Map map(document, file);
  require_version(map);
  const std::string language = language_of(map);
  const YAML::Node found = map.node("limits");
  yaml::Map limits(found, file, "limits");
  if (auto error = map.finish()) return *error;
  std::map<std::string, ProfileSet::BodyLimit> read;
  if (!found || !found.IsMap()) return *limits.finish();
  for (const auto& entry : found) {
    const std::string& phrase = entry.first.Scalar();
    yaml::Map one(limits.node(phrase), file, limits.place(phrase).key);
    auto limit = read_changes(one, language, known);
    if (!limit) return limit.error();
    limit->name = {phrase, language};
    limit->origin = origin_of(limits.place(phrase));
    read[kebab(phrase)] = std::move(*limit);
  }
  if (auto error = limits.finish()) return *error;
  return read;
}

Result<ProfileSet::BodyLimit> read_student(const YAML::Node& document, const std::string& file,
                                           const Known& known) {
  yaml::Map map(document, file);
  require_version(map);
  const std::string language = language_of(map);
  return read_changes(map, language, known);
}

}  // namespace rangecheck::grade
