// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/text.hpp"
#include "grade/profile_file.hpp"

namespace rangecheck::grade {
namespace {

using Parts = std::map<std::string, const ProfilePart*>;

Error at(const Place& place, std::string what, std::string remedy = "") {
  return {Fault::bad_profile, std::move(what), place, std::move(remedy)};
}

Parts by_id(const std::vector<ProfilePart>& parts, Faults& faults) {
  Parts found;
  for (const auto& part : parts) {
    const auto [other, is_new] = found.emplace(part.id, &part);
    if (!is_new)
      faults.push_back(at(part.place, rangecheck::quoted(part.id) + " is taken by " +
                                          origin_of(other->second->place)));
  }
  return found;
}

/// Walks `extends`, deepest first, each part once.
class Lineage {
 public:
  explicit Lineage(const Parts& parts) : parts_(parts) {}

  /// Appends `part` and what it extends to the line, or says why that can't be.
  std::optional<Error> add(const ProfilePart& part) {
    if (std::ranges::find(line_, &part) != line_.end()) return std::nullopt;
    path_.push_back(part.id);
    for (const auto& id : part.extends) {
      const auto parent = parts_.find(id);
      if (parent == parts_.end()) {
        std::vector<std::string_view> ids;
        for (const auto& [known, unused] : parts_) ids.push_back(known);
        return at(part.extends_place, rangecheck::quoted(id) + " is the id of no profile",
                  did_you_mean(id, ids));
      }
      if (std::ranges::find(path_, id) != path_.end())
        return at(part.extends_place, fmt::format("loops: {} → {}", fmt::join(path_, " → "), id));
      if (auto error = add(*parent->second)) return error;
    }
    path_.pop_back();
    line_.push_back(&part);
    return std::nullopt;
  }

  const std::vector<const ProfilePart*>& line() const { return line_; }

 private:
  const Parts& parts_;
  std::vector<const ProfilePart*> line_;
  std::vector<std::string> path_;  ///< from the part asked for down to the one at hand
};

template <class T>
void lay(std::optional<T>& onto, const std::optional<T>& over) {
  if (over) onto = over;
}

void lay(CheckPart& onto, const CheckPart& over) {
  if (over.target || over.accept) onto.origin = over.origin;
  if (over.drives) onto.drives_place = over.drives_place;
  lay(onto.title, over.title);
  lay(onto.target, over.target);
  lay(onto.accept, over.accept);
  lay(onto.fade_si, over.fade_si);
  lay(onto.weight, over.weight);
  lay(onto.drives, over.drives);
  lay(onto.low, over.low);
  lay(onto.high, over.high);
  lay(onto.inside, over.inside);
  lay(onto.drill, over.drill);
  lay(onto.caution, over.caution);
  lay(onto.off, over.off);
  onto.written.lay(over.written);
  onto.faulty |= over.faulty;
}

template <class Checks>
auto find_part(Checks& checks, std::string_view id) {
  return std::ranges::find_if(checks, [id](const CheckPart& one) { return one.name.id == id; });
}

void lay(ProfilePart& onto, const ProfilePart& over) {
  onto.id = over.id;
  onto.place = over.place;
  onto.title = over.title;  // a title says which file it is: never handed down
  lay(onto.club, over.club);
  lay(onto.swing, over.swing);
  lay(onto.style, over.style);
  lay(onto.confidence, over.confidence);
  lay(onto.least_seen, over.least_seen);
  onto.language = over.language;
  onto.lost_checks |= over.lost_checks;
  onto.written.lay(over.written);
  for (const auto& check : over.checks) {
    const auto same = find_part(onto.checks, check.name.id);
    if (same == onto.checks.end())
      onto.checks.push_back(check);
    else
      lay(*same, check);
  }
}

std::string title_of(const CheckPart& check) {
  if (check.title) return *check.title;
  if (!check.name.named.title.empty()) return std::string(check.name.named.title);
  std::string words = check.name.id;
  std::ranges::replace(words, '-', ' ');
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

Result<Check> whole(const CheckPart& part) {
  const bool by_words = part.name.named.subject == Subject::observed;
  if (by_words && !part.accept)
    return at(part.place, "has no words to accept", "add `accept: [word]`");
  if (!by_words && !part.target) return at(part.place, "has no target", "add `target:`");
  if (!by_words && !part.fade_si)
    return at(part.place, "has no fade", "add `fade:`, how far outside the score reaches 0");
  Check check;
  check.id = part.name.id;
  check.rule = part.name.rule;
  check.position = part.name.position;
  check.title = title_of(part);
  check.subject = part.name.named.subject;
  check.dimension = part.name.named.dimension.value_or(Dimension::ratio);
  if (part.target) {
    check.band = part.target->band;
    check.unit = part.target->unit;
  }
  check.accept = part.accept.value_or(std::vector<std::string>{});
  for (auto& word : check.accept) word = kebab(word);
  check.fade_si = part.fade_si.value_or(1);
  check.weight = part.weight.value_or(1);
  check.drives = part.drives.value_or(std::vector<std::string>{});
  check.words = {part.low.value_or(Written()), part.high.value_or(Written()),
                 part.inside.value_or(Written()), part.drill.value_or(Written()),
                 part.caution.value_or(Written())};
  check.origin = part.origin;
  return check;
}

/// Finds a check that drives itself, through others or not.
class DrivesLoop {
 public:
  explicit DrivesLoop(const ProfilePart& merged) : merged_(merged) {}

  std::optional<Error> find() {
    for (const auto& check : merged_.checks)
      if (auto error = visit(check)) return error;
    return std::nullopt;
  }

 private:
  std::optional<Error> visit(const CheckPart& check) {
    if (done_.contains(check.name.id)) return std::nullopt;
    path_.push_back(check.name.id);
    for (const auto& id : check.drives.value_or(std::vector<std::string>{})) {
      const auto start = std::ranges::find(path_, id);
      if (start != path_.end())
        return at(check.drives_place,
                  fmt::format("loops: {} → {}", fmt::join(start, path_.end(), " → "), id));
      const auto driven = find_part(merged_.checks, id);
      if (driven == merged_.checks.end()) continue;
      if (auto error = visit(*driven)) return error;
    }
    path_.pop_back();
    done_.insert(check.name.id);
    return std::nullopt;
  }

  const ProfilePart& merged_;
  std::vector<std::string> path_;
  std::set<std::string> done_;
};

/// Whether what is absent from `check` is missing indeed, and not just hidden by another fault.
bool is_all_there(const CheckPart& check, const ProfilePart& merged) {
  return !check.faulty && !merged.lost_checks;
}

std::optional<Profile> complete(const ProfilePart& merged, Faults& faults) {
  const auto before = faults.size();
  if (!merged.title)
    faults.push_back(at(merged.place, "a profile with a club needs a title", "add `title:`"));
  if (!merged.swing)
    faults.push_back(at(merged.place, "a profile with a club needs a swing", "add `swing:`"));
  if (!merged.style)
    faults.push_back(at(merged.place, "a profile with a club needs a style", "add `style:`"));
  Profile profile;
  profile.id = merged.id;
  profile.title = merged.title.value_or(Written());
  profile.club_family = *merged.club;
  profile.swing = merged.swing.value_or("");
  profile.style = kebab(merged.style.value_or(""));
  profile.confidence = merged.confidence.value_or(profile.confidence);
  profile.least_seen_share = merged.least_seen.value_or(profile.least_seen_share);
  for (const auto& part : merged.checks) {
    if (part.off.value_or(false)) continue;
    auto check = whole(part);
    if (check)
      profile.checks.push_back(std::move(*check));
    else if (is_all_there(part, merged))
      faults.push_back(check.error());
  }
  if (faults.size() > before) return std::nullopt;
  if (!profile.checks.empty()) return profile;
  if (std::ranges::all_of(merged.checks,
                          [&](const auto& one) { return is_all_there(one, merged); }))
    faults.push_back(at(merged.place, "this profile checks nothing"));
  return std::nullopt;
}

/// Two profiles for one club, swing and style would leave the choice to chance.
std::optional<Error> twin(const std::vector<Profile>& profiles, const Profile& one,
                          const Place& place) {
  for (const auto& other : profiles)
    if (other.club_family == one.club_family && other.swing == one.swing &&
        other.style == one.style)
      return at(place, fmt::format("{}, {}, {} is covered by {} as well", one.club_family,
                                   one.swing, one.style, other.id));
  return std::nullopt;
}

}  // namespace

std::vector<ProfilePart> merge_parts(const std::vector<ProfilePart>& parts, const Known& known,
                                     Faults& faults) {
  const Parts ids = by_id(parts, faults);
  std::vector<ProfilePart> all;
  for (const auto& part : parts) {
    Lineage lineage(ids);
    if (auto error = lineage.add(part)) {
      faults.push_back(*error);
      continue;
    }
    ProfilePart merged;
    for (const auto* ancestor : lineage.line()) lay(merged, *ancestor);
    if (auto error = DrivesLoop(merged).find()) {
      faults.push_back(*error);
      continue;
    }
    std::ranges::stable_sort(merged.checks, {},
                             [&](const CheckPart& check) { return order_of(check.name, known); });
    all.push_back(std::move(merged));
  }
  return all;
}

std::vector<Profile> complete_profiles(const std::vector<ProfilePart>& merged, Faults& faults) {
  std::vector<Profile> profiles;
  for (const auto& part : merged) {
    if (!part.club) continue;
    auto profile = complete(part, faults);
    if (!profile) continue;
    if (auto error = twin(profiles, *profile, part.place))
      faults.push_back(*error);
    else
      profiles.push_back(std::move(*profile));
  }
  return profiles;
}

}  // namespace rangecheck::grade
