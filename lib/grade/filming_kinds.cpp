// SPDX-License-Identifier: MIT
#include "grade/filming_kinds.hpp"

#include <algorithm>
#include <array>

namespace rangecheck::grade {
namespace {

using Facts = motion::FilmFacts;
using Camera = std::optional<posture::CameraSeen>;
using Said = std::optional<Answer>;

Said counted(const std::optional<double>& value) {
  if (!value) return std::nullopt;
  return Answer{*value};
}

Said of_margin(const std::optional<motion::Margin>& margin) {
  if (!margin) return std::nullopt;
  Answer out{margin->least.value, margin->least.u};
  if (margin->cut_share > 0)
    out.detail = {"detail.cut", {{"share", Number{100 * margin->cut_share}}}};
  return out;
}

Said of_camera(const Camera& camera, posture::Uncertain posture::CameraSeen::*number) {
  if (!camera) return std::nullopt;
  return Answer{(*camera.*number).value, (*camera.*number).u};
}

Said still_address(const Facts& facts, const Camera&) {
  auto out = counted(facts.still_s);
  if (out && facts.still_longer) out->may_be_more = "reason.ends-before-swing";
  return out;
}

Said golfer_size(const Facts& facts, const Camera&) {
  if (!facts.height_share) return std::nullopt;
  return Answer{facts.height_share->value, facts.height_share->u};
}

/// What is lost of the hands' confidence where they are fast.
Said blur(const Facts& facts, const Camera&) {
  if (!facts.hands_kept) return std::nullopt;
  Answer out{std::max(0.0, 1 - *facts.hands_kept)};
  if (facts.hands_step)
    out.detail = {"detail.hands-move", {{"share", Number{100 * *facts.hands_step}}}};
  return out;
}

/// That of the part of the body which is seen worst.
Said confidence(const Facts& facts, const Camera&) {
  const motion::PartSeen* worst = nullptr;
  for (const auto& part : facts.parts)
    if (part.part != motion::Part::club && (!worst || part.at_address < worst->at_address))
      worst = &part;
  if (!worst) return std::nullopt;
  return Answer{
      worst->at_address, 0, {"detail.parts." + std::string(motion::name_of(worst->part))}};
}

constexpr auto ratio = Dimension::ratio, angle = Dimension::angle;
constexpr std::string_view no_picture = "reason.no-picture";
constexpr std::string_view no_camera = "reason.no-camera";
constexpr std::string_view few = "reason.few-pictures";
constexpr std::string_view no_score = "reason.no-score";

const std::array kinds{
    FilmingKind{"feet-in-picture", ratio, false, false, false, no_picture,
                [](const Facts& f, const Camera&) { return of_margin(f.feet); }},
    FilmingKind{"head-in-picture", ratio, false, false, false, no_picture,
                [](const Facts& f, const Camera&) { return of_margin(f.head); }},
    FilmingKind{"hands-in-picture", ratio, true, false, false, no_picture,
                [](const Facts& f, const Camera&) { return of_margin(f.hands); }},
    FilmingKind{"golfer-size", ratio, false, false, true, no_picture, golfer_size},
    FilmingKind{"still-address", Dimension::time, false, false, true, few, still_address},
    FilmingKind{"frame-rate", ratio, true, true, true, "reason.no-rate",
                [](const Facts& f, const Camera&) { return counted(f.rate_hz); }},
    FilmingKind{"lost-frames", ratio, true, false, true, few,
                [](const Facts& f, const Camera&) { return counted(f.lost_share); }},
    FilmingKind{"uneven-frames", ratio, true, false, true, few,
                [](const Facts& f, const Camera&) { return counted(f.unevenness); }},
    FilmingKind{"blur", ratio, true, false, false, "reason.no-hands-score", blur},
    FilmingKind{
        "camera-height", Dimension::length, false, false, true, no_camera,
        [](const Facts&, const Camera& c) { return of_camera(c, &posture::CameraSeen::height_m); }},
    FilmingKind{"camera-square", angle, false, false, true, no_camera,
                [](const Facts&, const Camera& c) {
                  return of_camera(c, &posture::CameraSeen::off_square_rad);
                }},
    FilmingKind{
        "camera-roll", angle, false, false, true, no_camera,
        [](const Facts&, const Camera& c) { return of_camera(c, &posture::CameraSeen::roll_rad); }},
    FilmingKind{"confidence", ratio, false, false, false, no_score, confidence},
    FilmingKind{"jitter", ratio, false, false, true, no_picture,
                [](const Facts& f, const Camera&) { return counted(f.jitter_share); }},
};

}  // namespace

std::span<const FilmingKind> filming_kinds() { return kinds; }

const FilmingKind* find_filming_kind(std::string_view id) {
  const auto found = std::ranges::find(kinds, id, &FilmingKind::id);
  return found == kinds.end() ? nullptr : &*found;
}

}  // namespace rangecheck::grade
