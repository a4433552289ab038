// SPDX-License-Identifier: MIT
// Graded submissions made by hand: each kind of subject and verdict once, no film behind them.
#pragma once

#include <numbers>

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
  result.check.id = std::move(id);
  result.check.title = std::move(title);
  result.reason = "depth is not in one film";
  result.remedy = "Send a film from down the line as well.";
  return result;
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
  graded.grade.work_on = {0};
  graded.grade.notes = {"heel-gap: band moved by -1 in (short stature)"};
  graded.notes = {"face-on film: another person walked through"};
  graded.findings = {{.refuses = false,
                      .source = "stature",
                      .text = "The stature given does not fit the films well.",
                      .remedy = "check it in the roster"}};
  graded.agreement = {{.source = "stature", .chi_square = 7.5, .freedom = 0.9, .surprise = 2.7}};
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
  graded.grade.work_on.clear();
  graded.measured.front().value.reset();
  graded.measured.front().not_seen = {"lead heel is missing", "Film the heels."};
  return graded;
}

inline SetAside example_set_aside() {
  Error error{Fault::unreadable, "is cut short", {}, "send the file again"};
  error.where.file = "s-0500/face-on.json";
  error.where.frame = 3;
  return {"s-0500", error};
}

}  // namespace rangecheck::report
