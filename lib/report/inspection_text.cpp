// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "report/inspection.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

std::string line(std::string_view label, std::string_view text) {
  return fmt::format("{:<12}{}\n", label, printable(text));
}

std::string people_text(const Inspection& film) {
  std::string text;
  for (const auto& [people, frames] : film.frames_with) {
    text += fmt::format("{}{} in {}", text.empty() ? "" : ", ",
                        people == 0 ? "nobody" : std::to_string(people), count_of(frames, "frame"));
  }
  return text;
}

std::string file_text(const Inspection& film) {
  std::string text = line("form", film.form);
  text += line(
      "picture",
      film.image
          ? fmt::format("{:.0f} x {:.0f} px{}", film.image->width_px, film.image->height_px,
                        film.image_is_stand_in ? " (a stand-in: the file does not say it)" : "")
          : "size not given");
  text += line("frames", std::to_string(film.frames));
  text += line("people", people_text(film));
  text += line("frame rate",
               film.file_rate_hz ? fmt::format("{:g} Hz", *film.file_rate_hz) : "not given");
  text += line("confidence", film.confidence_given ? "given" : "not given, taken as 1");
  return text;
}

std::string golfer_text(const Inspection& film) {
  if (!film.golfer_fault.empty()) return line("golfer", "not found: " + film.golfer_fault);
  std::string text =
      line("view", fmt::format("{} ({})", intake::name_of(film.view), film.view_from));
  if (film.golfer_certainty)
    text += line("golfer", fmt::format("told from other people, {:.0f} % sure",
                                       std::floor(100 * *film.golfer_certainty)));
  text += film.still ? line("still", fmt::format("frames {} to {} of {}", film.still->first,
                                                 film.still->last, film.frames))
                     : line("still", "no: " + film.still_fault);
  return text;
}

/// "1.234 s ± 0.010 s, frame 38, from the club", or why there is none.
std::string moment_text(const Inspection::Moment& moment) {
  if (!moment.found) return "not found: " + moment.reason;
  return fmt::format("{:.3f} s ± {:.3f} s, frame {}, from the {}", moment.found->time.in_seconds(),
                     moment.found->standard_uncertainty.in_seconds(), moment.frame,
                     moment.found->from_club ? "club" : "hands");
}

std::string swing_text(const Inspection& film) {
  if (film.moments.empty()) return line("swing", "none found");
  std::string text = "\n";
  for (const auto& moment : film.moments)
    text += fmt::format("{:<4}{:<28}{}\n", alias_of(moment.position), title_of(moment.position),
                        moment_text(moment));
  return text;
}

/// "good: at least 110; fair: at least 50".
std::string wanted_text(const grade::FilmJudgement& one) {
  const auto band = [&](const grade::Band& each) {
    return grade::to_string(each, one.dimension, one.criterion.unit);
  };
  return fmt::format("good: {}, fair: {}", band(one.criterion.good), band(one.criterion.fair));
}

std::string judgement_text(const grade::FilmJudgement& one) {
  std::string text = fmt::format("{}: {}", one.criterion.title, value_text(english(), one));
  if (!one.reason.empty()) text += ", " + in_english(one.reason);
  if (!one.detail.empty()) text += ", " + in_english(one.detail);
  text = paragraph(fmt::format("{} ({})", text, wanted_text(one)),
                   fmt::format("  {:<11}", grade::name_of(one.verdict)));
  const bool advised =
      one.verdict == grade::FilmVerdict::poor || one.verdict == grade::FilmVerdict::fair;
  return advised ? text + paragraph(one.criterion.advice, "               ") : text;
}

/// What has no value, together for each reason.
std::string absent_text(const std::vector<grade::FilmJudgement>& judged) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_reason;
  for (const auto& one : judged) {
    if (one.value_si) continue;
    const std::string why = in_english(one.reason);
    const auto same =
        std::ranges::find_if(by_reason, [&](const auto& group) { return group.first == why; });
    if (same == by_reason.end())
      by_reason.push_back({why, {lower(one.criterion.title)}});
    else
      same->second.push_back(lower(one.criterion.title));
  }
  std::string text;
  for (const auto& [reason, titles] : by_reason)
    text += paragraph(fmt::format("{}: {}", reason, listed(titles)), "  not known  ");
  return text;
}

std::string parts_text(const motion::FilmFacts& facts) {
  if (facts.parts.empty()) return "";
  std::string text =
      fmt::format("\n{:<20}{:>12}{:>16}\n", "how sure", "at address", "in the swing");
  for (const auto& part : facts.parts)
    text += fmt::format("{:<20}{:>12.2f}{:>16}\n", motion::name_of(part.part), part.at_address,
                        part.in_swing ? fmt::format("{:.2f}", *part.in_swing) : "-");
  return text;
}

/// "4 ± 9° to the left of square": the sign in words.
std::string turned_text(const posture::Uncertain& rad, int decimals, std::string_view positive,
                        std::string_view negative) {
  const double deg = Angle::radians(1).in_degrees();
  return fmt::format("{:.{}f} ± {:.{}f}° {}", std::abs(rad.value) * deg, decimals,
                     coverage_factor_95 * rad.u * deg, decimals,
                     rad.value < 0 ? negative : positive);
}

std::string camera_text(const posture::CameraSeen& camera) {
  return paragraph(
      fmt::format(
          "{:.2f} ± {:.2f} m high, {:.1f} ± {:.1f} m away, {}, {}, {}", camera.height_m.value,
          coverage_factor_95 * camera.height_m.u, camera.distance_m.value,
          coverage_factor_95 * camera.distance_m.u,
          turned_text(camera.off_square_rad, 0, "to the left of square", "to the right of square"),
          turned_text(camera.pitch_rad, 0, "downward", "upward"),
          turned_text(camera.roll_rad, 1, "turned anticlockwise", "turned clockwise")),
      fmt::format("{:<12}", "camera"));
}

std::string quality_text(const grade::FilmQuality& quality) {
  std::string text = "\nHow it was filmed:\n";
  for (const auto& one : quality.judged)
    if (one.value_si) text += judgement_text(one);
  text += absent_text(quality.judged);
  if (quality.camera) text += "\n" + camera_text(*quality.camera);
  return text + parts_text(quality.facts);
}

std::string landmarks_text(const Inspection& film) {
  std::string text = fmt::format("\n{:<20}{:>8}{:>12}{:>14}\n", "landmark", "frames", "confidence",
                                 "jitter u (px)");
  for (const auto& one : film.landmarks)
    text += fmt::format("{:<20}{:>6.0f} %{:>12.2f}{:>14}\n", name_of(one.id),
                        100 * one.frames_share, one.confidence,
                        one.jitter_u_px ? fmt::format("{:.2f}", *one.jitter_u_px) : "-");
  return text;
}

std::string indented(const Inspection::Showing& showing) {
  std::string text = fmt::format("  {}:", showing.what);
  std::size_t used = text.size();
  for (const auto& id : showing.rules) {
    if (used + 1 + id.size() > 80) {
      text += "\n   ";
      used = 3;
    }
    text += " " + id;
    used += 1 + id.size();
  }
  return text + "\n";
}

std::string can_show_text(const Inspection& film) {
  std::string text = "\nThese landmarks can show, if the camera stands where it shows it well:\n";
  for (const auto& one : film.can_show) text += indented(one);
  if (film.can_show.empty()) text += "  nothing\n";
  if (film.cannot_show.empty()) return text;
  text += "They can't show directly:\n";
  for (const auto& one : film.cannot_show) text += indented(one);
  return text;
}

}  // namespace

std::string inspection_text(const Inspection& film) {
  std::string text = printable(film.file) + "\n" + file_text(film) + golfer_text(film);
  for (const auto& note : film.notes) text += line("note", in_english(note));
  if (!film.golfer_fault.empty()) return text;
  if (film.still) text += swing_text(film);
  if (film.quality) text += quality_text(*film.quality);
  return text + landmarks_text(film) + can_show_text(film);
}

}  // namespace rangecheck::report
