// SPDX-License-Identifier: MIT
// Graded submissions made by hand: each kind of subject and verdict once, no film behind them.
#pragma once

#include <limits>
#include <numbers>

#include "base/message.hpp"
#include "films_example.hpp"
#include "report/report.hpp"

namespace rangecheck::report {

inline constexpr double rad_per_deg = std::numbers::pi / 180;

inline constexpr LandmarkId heels[] = {lead(Joint::heel), trail(Joint::heel)};
inline constexpr measure::Placed heels_apart[] = {{0.18, 0, 0}, {-0.18, 0, 0}};
inline constexpr measure::WorkedExample examples[] = {{heels_apart, 0.36, 1e-9, "by construction"}};
inline const measure::Rule heel_gap = {.id = "heel-gap",
                                       .title = "Heel gap",
                                       .region = measure::Region::feet,
                                       .dimension = Dimension::length,
                                       .sign = "centre to centre, never negative",
                                       .needs = heels,
                                       .seen_limit_si = 0.0381,
                                       .limit = "Heels hidden by tall grass are guessed.",
                                       .source = "own definition",
                                       .examples = examples};

inline grade::CheckResult length_result() {
  grade::CheckResult result;
  result.check = {.id = "heel-gap",
                  .rule = "heel-gap",
                  .title = "Heel gap",
                  .subject = grade::Subject::measured,
                  .dimension = Dimension::length,
                  .unit = "in",
                  .band = {.lower_si = 14 * 0.0254, .upper_si = 15 * 0.0254},
                  .accept = {},
                  .fade_si = 0.0508,
                  .weight = 2,
                  .drives = {"trail-tilt"},
                  .words = {.low = "A narrow base lets you sway.",
                            .high = "A wide base stops your hips.",
                            .inside = "Heels as far apart as your hips.",
                            .drill = "Set a club between your heels.",
                            .caution = "Widen only as far as your hips like."},
                  .origin = "irons.yaml:12"};
  result.verdict = grade::Verdict::low;
  result.value_si = 11 * 0.0254;
  result.standard_uncertainty_si = 0.5 * 0.0254;
  result.probability = {.below = 0.999, .inside = 0.001, .above = 0};
  result.score = {.expected = 0.1, .standard_deviation = 0.1};
  return result;
}

inline grade::CheckResult angle_result(grade::Verdict verdict) {
  grade::CheckResult result;
  result.check = {.id = "trail-tilt",
                  .rule = "trail-tilt",
                  .title = "Shoulder tilt",
                  .subject = grade::Subject::measured,
                  .dimension = Dimension::angle,
                  .unit = "deg",
                  .band = {.lower_si = std::nullopt, .upper_si = 12 * rad_per_deg},
                  .accept = {},
                  .fade_si = 6 * rad_per_deg,
                  .weight = 1,
                  .drives = {},
                  .words = {},
                  .origin = "irons.yaml:20"};
  result.verdict = verdict;
  result.value_si = 21 * rad_per_deg;
  result.standard_uncertainty_si = 3 * rad_per_deg;
  result.probability = {.below = 0, .inside = 0.001, .above = 0.999};
  return result;
}

inline grade::CheckResult observed_result() {
  grade::CheckResult result;
  result.check = {.id = "lead-thumb",
                  .rule = "lead-thumb",
                  .position = std::nullopt,
                  .title = "Lead thumb",
                  .subject = grade::Subject::observed,
                  .dimension = Dimension::ratio,
                  .unit = "",
                  .band = {},
                  .accept = {"trail-side", "centre"},
                  .fade_si = 1,
                  .weight = 1,
                  .drives = {},
                  .words = {},
                  .origin = "irons.yaml:30"};
  result.verdict = grade::Verdict::inside;
  result.word = "trail-side";
  result.score = {.expected = 1, .standard_deviation = 0};
  return result;
}

inline grade::CheckResult unseen_result(std::string id, std::string title) {
  grade::CheckResult result = angle_result(grade::Verdict::not_seen);
  result.check.id = result.check.rule = std::move(id);
  result.check.title = std::move(title);
  result.reason = as_written("depth is not in one film");
  result.remedy = as_written("Send a film from down the line as well.");
  return result;
}

/// Leaves the check at `index` out of what is judged.
inline void leave_out(Graded& graded, std::size_t index, const std::string& because) {
  auto& result = graded.grade.results[index];
  result.verdict = grade::Verdict::switched_off;
  result.reason = as_written("for this student: " + because);
  graded.grade.changes.push_back({.check = result.check,
                                  .from = std::nullopt,
                                  .limit = {},
                                  .because = because,
                                  .whose = "for this student"});
}

inline Graded example_graded() {
  Graded graded;
  graded.submission = "s-0417-7-iron";
  graded.student = "s-0417";
  graded.name = "Ann Example";
  graded.received = "2026-03-14T18:22:00+02:00";
  graded.club = "7-iron";
  graded.swing = "full";
  graded.version = "0.1.0";
  graded.measured = {{.rule = &heel_gap,
                      .value = 11 * 0.0254,
                      .standard_uncertainty = 0.5 * 0.0254,
                      .prior_uncertainty = 0.06,
                      .not_seen = std::nullopt}};
  graded.grade.profile_id = "middle-iron-full";
  graded.grade.profile_title = "Middle iron, full swing";
  graded.grade.results = {length_result(), angle_result(grade::Verdict::high),
                          unseen_result("hip-turn", "Hip line"),
                          unseen_result("knee-turn", "Knee line"), observed_result()};
  graded.grade.percent = 62;
  graded.grade.percent_uncertainty = 4;
  graded.grade.seen_share = 0.7;
  graded.grade.positions = {{Position::address, 62, 4, 0.7}};
  graded.grade.work_on = {0};
  graded.grade.changes = {{.check = length_result().check,
                           .from = grade::Band{.lower_si = 15 * 0.0254, .upper_si = 16 * 0.0254},
                           .limit = "stiff hips",
                           .because = "a narrower stance is enough",
                           .whose = "Stiff hips"}};
  graded.grade.notes = {{"notes.no-such-check", {{"id", "\"thumb\""}}}};
  graded.films = {example_film(intake::View::face_on, well_filmed())};
  graded.notes = {as_written("face-on film: another person walked through")};
  graded.findings = {{.refuses = false,
                      .source = as_written("stature"),
                      .text = as_written("The stature given does not fit the films well."),
                      .remedy = as_written("check it in the roster")}};
  graded.space_agreement = {{.view = intake::View::face_on,
                             .rms_across_m = 0.06,
                             .rms_depth_m = 0.08,
                             .rms_in_u = 1.5,
                             .mirror_image = false,
                             .joints = 21}};
  graded.agreement = {
      {.source = as_written("stature"), .chi_square = 7.5, .freedom = 0.9, .surprise = 2.7}};
  graded.birge_ratio = 1.2;
  return graded;
}

/// Nothing seen, no grade, and a name that is no UTF-8.
inline Graded example_without_grade() {
  Graded graded = example_graded();
  graded.submission = "s-0418-7-iron";
  graded.name = "\xff\xfe";
  graded.grade.results = {unseen_result("hip-turn", "Hip line")};
  graded.grade.percent.reset();
  graded.grade.seen_share = 0.2;
  graded.grade.positions = {{Position::address, std::nullopt, 0, 0.2}};
  graded.grade.work_on.clear();
  graded.measured.front().value.reset();
  graded.measured.front().not_seen =
      measure::NotSeen{as_written("lead heel is missing"), as_written("Film the heels.")};
  return graded;
}

inline SetAside example_set_aside() {
  Error error{Fault::unreadable, "is cut short", {}, "send the file again"};
  error.where.file = "s-0500/face-on.json";
  error.where.frame = 3;
  return {"s-0500", error};
}

/// Rules of a swing: one that compares with address, and one about times.
inline constexpr LandmarkId pelvis_needs[] = {lead(Joint::hip), trail(Joint::hip)};
inline constexpr measure::Placed pelvis_moved[] = {
    {0.25, 0.9, 0}, {-0.05, 0.9, 0}, {0.15, 0.9, 0}, {-0.15, 0.9, 0}};
inline constexpr measure::WorkedExample pelvis_examples[] = {
    {pelvis_moved, 0.1, 1e-9, "by construction"}};
inline const measure::Rule pelvis_shift = {
    .id = "pelvis-shift",
    .title = "Pelvis shift",
    .region = measure::Region::hips,
    .dimension = Dimension::length,
    .sign = "middle of the hips since address, positive toward the target",
    .needs = pelvis_needs,
    .seen_limit_si = 0.0381,
    .limit = "A turn of the pelvis moves its middle a little too.",
    .source = "own definition",
    .examples = pelvis_examples,
    .at = Positions::from(Position::shaft_parallel_back, Position::impact) |
          Positions::of(Position::finish),
    .address_needs = pelvis_needs};
inline constexpr measure::Moment backswing_moments[] = {measure::Moment::address,
                                                        measure::Moment::top};
inline constexpr double backswing_times[] = {0.25, 1.0};
inline constexpr measure::WorkedExample backswing_examples[] = {
    {{}, 0.75, 1e-9, "by construction", backswing_times}};
inline const measure::Rule backswing_time = {.id = "backswing-time",
                                             .title = "Backswing time",
                                             .region = measure::Region::timing,
                                             .dimension = Dimension::time,
                                             .sign = "from address to top, longer is slower",
                                             .needs = {},
                                             .seen_limit_si = 0.05,
                                             .limit = "A pause at the top counts too.",
                                             .source = "own definition",
                                             .examples = backswing_examples,
                                             .at = {},
                                             .moments = backswing_moments};

/// A check of `rule` somewhere in the swing, its value `beyond` half-widths from the band's middle.
inline grade::CheckResult swing_result(std::string_view rule, std::string_view title,
                                       Dimension dimension, std::optional<Position> position,
                                       grade::Verdict verdict) {
  constexpr double middles[] = {40 * rad_per_deg, 3 * 0.0254, 0.5, 0.8};
  constexpr double halves[] = {10 * rad_per_deg, 0.0254, 0.1, 0.1};
  const auto kind = static_cast<std::size_t>(dimension);
  const double middle = middles[kind], half = halves[kind];
  const double beyond = verdict == grade::Verdict::low      ? -2
                        : verdict == grade::Verdict::high   ? 2
                        : verdict == grade::Verdict::unsure ? 1
                                                            : 0;
  grade::CheckResult result;
  result.check = {.id = measure::check_id(rule, position),
                  .rule = std::string(rule),
                  .position = position,
                  .title = std::string(title),
                  .subject = grade::Subject::measured,
                  .dimension = dimension,
                  .unit = std::string(display_unit(dimension).symbol),
                  .band = {.lower_si = middle - half, .upper_si = middle + half},
                  .accept = {},
                  .fade_si = half,
                  .weight = 1,
                  .drives = {},
                  .words = {},
                  .origin = "swing.yaml:7"};
  result.verdict = verdict;
  if (verdict == grade::Verdict::not_seen) {
    result.reason = as_written("depth is not in one film");
    result.remedy = as_written("Send a film from down the line as well.");
    return result;
  }
  result.value_si = middle + beyond * half;
  result.standard_uncertainty_si = 0.25 * half;
  result.probability = {.below = 0, .inside = 1, .above = 0};
  result.score = {.expected = 0.5, .standard_deviation = 0.1};
  return result;
}

/// A whole swing but for the positions that only the club shows.
inline Graded example_swing() {
  using enum Position;
  using enum grade::Verdict;
  constexpr auto angle = Dimension::angle, length = Dimension::length, time = Dimension::time;
  Graded graded = example_graded();
  graded.submission = "s-0419-7-iron";
  auto& grade = graded.grade;
  grade.profile_title = "Middle iron, full swing, whole";
  grade.results = {
      length_result(),
      angle_result(high),
      unseen_result("hip-turn", "Hip line"),
      unseen_result("knee-turn", "Knee line"),
      swing_result("shaft-angle", "Shaft angle", angle, shaft_parallel_back, not_seen),
      swing_result("pelvis-shift", "Pelvis shift", length, lead_arm_parallel_back, inside),
      swing_result("hip-turn", "Hip turn", angle, lead_arm_parallel_back, not_seen),
      swing_result("chest-turn", "Chest turn", angle, lead_arm_parallel_back, unsure),
      swing_result("pelvis-shift", "Pelvis shift", length, top, high),
      swing_result("hip-turn", "Hip turn", angle, top, not_seen),
      swing_result("side-bend", "Side bend", angle, top, inside),
      swing_result("chest-turn", "Chest turn", angle, top, low),
      swing_result("head-travel", "Head travel", length, top, inside),
      swing_result("pelvis-shift", "Pelvis shift", length, impact, high),
      swing_result("hip-turn", "Hip turn", angle, impact, not_seen),
      swing_result("chest-turn", "Chest turn", angle, impact, unsure),
      swing_result("lead-elbow", "Lead elbow", angle, impact, inside),
      swing_result("hip-turn", "Hip turn", angle, finish, not_seen),
      swing_result("chest-turn", "Chest turn", angle, finish, inside),
      swing_result("backswing-time", "Backswing time", time, std::nullopt, low),
      observed_result()};
  grade.results[2].remedy = grade.results[3].remedy = as_written("Lay a stick on the ground.");
  grade.results[8].check.drives = {"top/chest-turn", "impact/pelvis-shift"};
  grade.results[4].reason = as_written("no film shows it");
  grade.work_on = {8, 0, 19};
  grade.percent = 71;
  grade.positions = {{address, 62, 4, 0.7},   {lead_arm_parallel_back, std::nullopt, 0, 0.3},
                     {top, 48, 6, 0.8},       {impact, 55.4, 5, 0.75},
                     {finish, 100, 0.2, 0.5}, {std::nullopt, 80, 3, 1}};
  const Message no_club = as_written("the landmark files have no points of the club");
  const Message show_club = as_written("Film with the whole club in frame and add its points.");
  grade.not_found = {{shaft_parallel_back, no_club, show_club},
                     {shaft_parallel_down, no_club, show_club}};
  graded.positions = {
      {address, intake::View::face_on, 0.5, 0.01, 15, false},
      {top, intake::View::face_on, 1.304, 0.008, 39, false},
      {top, intake::View::down_the_line, 1.1, 0.02, 33, true},
  };
  graded.measured.push_back({.rule = &pelvis_shift,
                             .position = top,
                             .value = 5 * 0.0254,
                             .standard_uncertainty = 0.25 * 0.0254,
                             .prior_uncertainty = 0.1,
                             .not_seen = std::nullopt});
  graded.measured.push_back({.rule = &backswing_time,
                             .position = std::nullopt,
                             .value = 0.6,
                             .standard_uncertainty = 0.025,
                             .prior_uncertainty = std::numeric_limits<double>::infinity(),
                             .not_seen = std::nullopt});
  return graded;
}

/// A film of the address alone, held against a profile of the whole swing.
inline Graded example_address_of_swing() {
  Graded graded = example_graded();
  auto& grade = graded.grade;
  grade.results.insert(grade.results.end() - 1,
                       {swing_result("hip-turn", "Hip turn", Dimension::angle, Position::top,
                                     grade::Verdict::not_seen),
                        swing_result("backswing-time", "Backswing time", Dimension::time,
                                     std::nullopt, grade::Verdict::not_seen)});
  for (const Position position : all_positions)
    if (position != Position::address)
      grade.not_found.push_back({position, as_written("the film ends at address"),
                                 as_written("Film from before the swing to the finish.")});
  for (auto& film : graded.films) {
    film.facts.shows_swing = false;
    film.facts.after_address_s = 0.1;
  }
  return graded;
}

/// Tables of submissions in memory, as text.
inline std::string long_text(std::span<const Graded> all) {
  std::string text;
  static_cast<void>(
      csv_long(entries_of(all), "in", [&](std::string_view bytes) { text += bytes; }));
  return text;
}

inline std::string wide_text(std::span<const Graded> all, std::string_view length_unit = "in") {
  std::string text;
  static_cast<void>(
      csv_wide(entries_of(all), length_unit, [&](std::string_view bytes) { text += bytes; }));
  return text;
}

inline std::string coach_text(std::span<const Graded> all, std::span<const SetAside> set_aside,
                              const Words& words = english()) {
  return *coach_html(entries_of(all), set_aside, {}, words);
}

inline std::vector<Summary> summaries_of(std::span<const Graded> all) {
  std::vector<Summary> out;
  for (const auto& one : all) out.push_back(entry_of(one).summary);
  return out;
}

}  // namespace rangecheck::report
