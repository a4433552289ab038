// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "grade/profile_lines.hpp"
#include "grade/profile_text.hpp"
#include "grade/reading.hpp"
#include "grade/taught_files.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::grade {
namespace {

constexpr std::string_view explained = R"(#
# Nothing below counts yet: take the "# " away from a check, and from the headings above it, and
# change what you teach otherwise. What you leave as it is comes from the profile named by extends.
#   target:  the band that you want: 12..14 in, at-least 3 deg, at-most 5 deg, around 30 deg ± 5 deg.
#            Lengths in in, ft, cm, mm or m; angles in deg; times in s or ms; shares as 0.5 or 50 %.
#   fade:    how far outside the band the score has fallen to 0. A wide fade forgives more.
#   weight:  how much the check counts in the grade, 1 if nobody says. 2 counts twice as much.
#   drives:  checks whose faults tend to come from this one: it is worked on before them.
#   low, high:  what is wrong, as the student reads it under Why. inside: the Aim, and the praise.
#   drill:   what to practise. caution: what to take care of.
#   off: true in place of all that leaves a check out.
# checks: are of the address, positions: of later moments (p1 to p10 go by these names too), tempo: of
# times, observed: of what a person saw, readings: of a launch monitor.
# The first check stands here whole, of the others the numbers: `rangecheck profile show ID` says the rest.
# `rangecheck profile lint DIR` says what is wrong with this file.
)";

Error refuse(std::string what, std::string remedy) {
  return {Fault::bad_value, std::move(what), {}, std::move(remedy)};
}

/// What is measured at `position` and no check asks for.
std::vector<std::string_view> unasked(const ProfilePart& base, std::optional<Position> position,
                                      const Known& known) {
  std::vector<std::string_view> ids;
  const auto add = [&](const measure::Rule& rule) {
    const bool here = position ? rule.at.has(*position) : rule.is_timing();
    const bool asked = std::ranges::any_of(base.checks, [&](const CheckPart& check) {
      return check.name.position == position && check.name.rule == rule.id;
    });
    if (here && !asked) ids.push_back(rule.id);
  };
  for (const auto* rule : measure::catalogue()) add(*rule);
  for (const auto* rule : known.own) add(*rule);
  return ids;
}

/// "# top: a, b" in lines of the usual length.
std::string listed(std::string_view head, const std::vector<std::string_view>& ids) {
  if (ids.empty()) return "";
  std::string out, line = fmt::format("#   {}:", head);
  for (const auto id : ids) {
    if (line.size() + id.size() > 98) {
      out += line + "\n";
      line = "#    ";
    }
    line += " " + std::string(id);
  }
  return out + line + "\n";
}

std::string unasked_text(const ProfilePart& base, const Known& known) {
  std::string out;
  for (const Position position : all_positions)
    out += listed(id_of(position), unasked(base, position, known));
  out += listed("tempo", unasked(base, std::nullopt, known));
  if (out.empty()) return out;
  return "#\n# Measured too, but not asked for (`rangecheck rules ID` explains one):\n" + out;
}

Result<std::string> family_of(const ProfileSet& set, const std::string& club) {
  const auto found = set.club_families.find(kebab(club));
  if (found != set.club_families.end()) return found->second;
  std::vector<std::string_view> known;
  for (const auto& [name, family] : set.club_families) known.push_back(name);
  return refuse(rangecheck::quoted(club) + " is no club that clubs.yaml knows",
                did_you_mean(kebab(club), known));
}

/// Why there can't be one of this name and place.
std::optional<Error> taken(const TaughtFiles& files, const NewProfile& wanted,
                           const std::string& family) {
  if (kebab(wanted.id).empty() || kebab(wanted.id) != wanted.id)
    return refuse(rangecheck::quoted(wanted.id) + " is no id",
                  "write one in small letters, as my-iron");
  for (const auto& part : files.parts)
    if (part.id == wanted.id)
      return refuse(rangecheck::quoted(wanted.id) + " is taken by " + origin_of(part.place),
                    "choose another id");
  for (const auto& other : files.set.profiles)
    if (other.club_family == family && other.swing == wanted.swing &&
        other.style == kebab(wanted.style))
      return refuse(
          fmt::format("{}, {}, {} is covered by {}", family, wanted.swing, other.style, other.id),
          "choose another --style");
  return std::nullopt;
}

Result<const ProfilePart*> base_for(const TaughtFiles& files, const NewProfile& wanted) {
  std::string id = wanted.extends;
  if (id.empty()) {
    const auto profile = choose_profile(files.set, wanted.club, wanted.swing, "");
    if (!profile)
      return refuse(profile.error().what, "say with --extends what it should begin with");
    id = (*profile)->id;
  }
  const auto found = std::ranges::find(files.merged, id, &ProfilePart::id);
  if (found != files.merged.end()) return &*found;
  std::vector<std::string_view> ids;
  for (const auto& part : files.merged) ids.push_back(part.id);
  return refuse("there is no profile " + rangecheck::quoted(id) + " to extend",
                did_you_mean(id, ids));
}

/// All that a check says, a line each.
std::vector<std::string> all_of(const CheckPart& check, const ProfilePart& base,
                                const Known& known) {
  std::vector<std::string> out;
  for (auto& line : lines_of(check, base.language, known)) out.push_back(std::move(line.text));
  return out;
}

/// What a coach is likeliest to change, in one line: the sentences would hide it.
std::vector<std::string> numbers_of(const CheckPart& check, const ProfilePart& base,
                                    const Known& known) {
  std::string flow;
  for (const auto& text : all_of(check, base, known))
    for (const std::string_view key : {"target: ", "accept: ", "fade: ", "weight: ", "off: "})
      if (text.starts_with(key)) flow += (flow.empty() ? "" : ", ") + text;
  return {"{ " + flow + " }"};
}

}  // namespace

Result<std::string> starter(const std::filesystem::path& folder, NewProfile wanted) {
  const auto files = read_taught_files(folder);
  if (!files.faults.empty()) return files.faults.front();
  const auto family = family_of(files.set, wanted.club);
  if (!family) return family.error();
  if (wanted.style.empty()) wanted.style = wanted.id;
  if (auto error = taken(files, wanted, *family)) return *error;
  const auto base = base_for(files, wanted);
  if (!base) return base.error();
  if ((*base)->checks.empty())
    return refuse((*base)->id + " checks nothing", "extend one that does");
  std::string title = wanted.id;
  std::ranges::replace(title, '-', ' ');
  const CheckPart* whole = &(*base)->checks.front();
  const auto lines = [&](const CheckPart& check) {
    return &check == whole ? all_of(check, **base, files.known)
                           : numbers_of(check, **base, files.known);
  };
  return fmt::format(
             "# yaml-language-server: $schema={}\n"
             "version: 1\n"
             "id: {}\n"
             "title: {}  # what students read above their grade\n"
             "extends: {}  # all that this file does not say\n"
             "club: {}  # a family of clubs.yaml\n"
             "swing: {}\n"
             "style: {}  # students who have this style in the roster are held against it\n"
             "# confidence: {}  # how sure a verdict has to be\n"
             "# least-seen: {}  # share of the weight that has to be seen for a grade\n",
             wanted.schema, yaml_scalar(wanted.id), yaml_scalar(title), yaml_scalar((*base)->id),
             yaml_scalar(*family), wanted.swing, yaml_scalar(kebab(wanted.style)),
             (*base)->confidence.value_or(Profile().confidence),
             (*base)->least_seen.value_or(Profile().least_seen_share)) +
         std::string(explained) + "#\n" + sections_text((*base)->checks, lines, "# ") +
         unasked_text(**base, files.known);
}

}  // namespace rangecheck::grade
