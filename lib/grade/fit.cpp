// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "base/text.hpp"
#include "grade/profile.hpp"
#include "grade/profile_file.hpp"

namespace rangecheck::grade {
namespace {

template <class Map>
std::vector<std::string_view> keys_of(const Map& map) {
  std::vector<std::string_view> keys;
  for (const auto& [key, unused] : map) keys.push_back(key);
  return keys;
}

Error refuse(std::string key, std::string what, std::string remedy) {
  return {Fault::bad_value,
          std::move(what),
          {.file = {}, .line = {}, .frame = {}, .key = std::move(key)},
          std::move(remedy)};
}

std::string described(const Profile& profile) {
  return fmt::format("{}, {}, {}", profile.club_family, profile.swing, profile.style);
}

/// The profile that differs in the fewest and least of family, swing and style. A word that is
/// nearly right counts as a slip of the pen.
const Profile* nearest_profile(const ProfileSet& set, const std::string& family,
                               const std::string& swing, const std::string& style) {
  const auto differs = [](const std::string& asked, const std::string& there) {
    const std::string_view one[] = {there};
    return asked == there ? 0 : nearest(asked, one).empty() ? 2 : 1;
  };
  const auto cost = [&](const Profile& profile) {
    const int f = differs(family, profile.club_family), w = differs(swing, profile.swing),
              t = differs(style, profile.style);
    // Another style of the same stroke is nearer than another stroke, and that than another club.
    return std::tuple(f + w + t, f, w, profile.style != set.default_style);
  };
  const auto best = std::ranges::min_element(set.profiles, {}, cost);
  return best == set.profiles.end() ? nullptr : &*best;
}

/// One limit or student file at work on a profile.
class Fitting {
 public:
  Fitting(const ProfileSet::BodyLimit& limit, std::string name, Fitted& fitted)
      : limit_(limit), name_(std::move(name)), fitted_(fitted) {}

  void apply() {
    for (auto& check : fitted_.profile.checks) {
      const Band before = check.band;
      if (const auto target = limit_.target.find(check.id); target != limit_.target.end()) {
        check.band = target->second.band;
        check.unit = target->second.unit;
        check.origin = limit_.origin;
      }
      if (const auto by = limit_.shift.find(check.id); by != limit_.shift.end())
        move(check.band, by->second);
      if (before.lower_si != check.band.lower_si || before.upper_si != check.band.upper_si)
        note(check, before);
    }
    for (const auto& id : limit_.switch_off) switch_off(id);
  }

 private:
  /// A limit that the profile leaves open stays open.
  static void move(Band& band, const Band& by) {
    if (band.lower_si) *band.lower_si += by.lower_si.value_or(0);
    if (band.upper_si) *band.upper_si += by.upper_si.value_or(0);
  }

  void switch_off(const std::string& id) {
    const auto check = std::ranges::find(fitted_.profile.checks, id, &Check::id);
    if (check == fitted_.profile.checks.end()) return;
    if (fitted_.switched_off.emplace(id, name_ + ": " + limit_.because.text).second)
      note(*check, std::nullopt);
  }

  void note(const Check& check, const std::optional<Band>& from) {
    fitted_.changes.push_back({check, from, limit_.name, limit_.because, name_});
  }

  const ProfileSet::BodyLimit& limit_;
  std::string name_;
  Fitted& fitted_;
};

}  // namespace

std::string to_string(const Change& change) {
  const Check& check = change.check;
  const auto band = [&](const Band& one) { return to_string(one, check.dimension, check.unit); };
  const std::string what =
      change.from ? fmt::format("{} instead of {}", band(check.band), band(*change.from))
                  : "not judged";
  return fmt::format("{}: {} ({}: {})", check.id, what, change.whose, change.because.text);
}

Result<const Profile*> choose_profile(const ProfileSet& set, const std::string& club,
                                      const std::string& swing, const std::string& style) {
  const auto family = set.club_families.find(kebab(club));
  if (family == set.club_families.end())
    return refuse("club", rangecheck::quoted(club) + " is no club that clubs.yaml knows",
                  did_you_mean(kebab(club), keys_of(set.club_families)));
  const std::string wanted_style = style.empty() ? set.default_style : kebab(style);
  for (const auto& profile : set.profiles)
    if (profile.club_family == family->second && profile.swing == swing &&
        profile.style == wanted_style)
      return &profile;
  const auto* near = nearest_profile(set, family->second, swing, wanted_style);
  return refuse("",
                fmt::format("there is no profile for {}, {}, {}", family->second, shortened(swing),
                            shortened(wanted_style)),
                near ? fmt::format("the nearest is {} ({})", near->id, described(*near))
                     : "add one to the profiles folder");
}

Result<Fitted> fit_to_student(const Profile& profile, const ProfileSet& set,
                              const intake::Golfer& golfer) {
  Fitted fitted{.profile = profile, .changes = {}, .switched_off = {}};
  for (const auto& phrase : golfer.limits) {
    const auto limit = set.limits.find(kebab(phrase));
    if (limit == set.limits.end())
      return refuse("limits", rangecheck::quoted(phrase) + " is no limit that limits.yaml knows",
                    did_you_mean(kebab(phrase), keys_of(set.limits)));
    Fitting(limit->second, phrase, fitted).apply();
  }
  if (const auto own = set.students.find(golfer.id); own != set.students.end())
    Fitting(own->second, "for this student", fitted).apply();
  for (const auto& check : fitted.profile.checks) {
    const Band& band = check.band;
    if (band.lower_si && band.upper_si && !(*band.lower_si < *band.upper_si))
      return refuse("limits",
                    fmt::format("together they leave {} no band ({})", check.id,
                                to_string(band, check.dimension, check.unit)),
                    "switch the check off instead");
  }
  return fitted;
}

}  // namespace rangecheck::grade
