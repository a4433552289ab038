// SPDX-License-Identifier: MIT
#include "intake/submission.hpp"
#include "report/json_parts.hpp"

namespace rangecheck::report {
namespace {

Json band_entry(const grade::Band& band, const Unit& unit) {
  return {{"lower", number(band.lower_si, unit)}, {"upper", number(band.upper_si, unit)}};
}

Json judgement_entry(const grade::FilmJudgement& one) {
  const Unit unit = document_unit(one.dimension);
  Json u;
  if (one.value_si) u = number(one.standard_uncertainty_si, unit);
  return {{"id", one.criterion.id},
          {"title", one.criterion.title},
          {"unit", one.a_second          ? "1/s"
                   : unit.symbol.empty() ? "1"
                                         : unit.symbol},
          {"value", number(one.value_si, unit)},
          {"standard_uncertainty", std::move(u)},
          {"good", band_entry(one.criterion.good, unit)},
          {"fair", band_entry(one.criterion.fair, unit)},
          {"verdict", grade::name_of(one.verdict)},
          {"reason", in_english(one.reason)},
          {"detail", in_english(one.detail)},
          {"advice", one.criterion.advice}};
}

Json uncertain_entry(const posture::Uncertain& one, double per_unit = 1) {
  return {{"value", number(one.value * per_unit)},
          {"standard_uncertainty", number(one.u * per_unit)}};
}

Json camera_entry(const std::optional<posture::CameraSeen>& camera) {
  if (!camera) return nullptr;
  const double deg = Angle::radians(1).in_degrees();
  return {{"height_m", uncertain_entry(camera->height_m)},
          {"distance_m", uncertain_entry(camera->distance_m)},
          {"off_square_deg", uncertain_entry(camera->off_square_rad, deg)},
          {"pitch_deg", uncertain_entry(camera->pitch_rad, deg)},
          {"roll_deg", uncertain_entry(camera->roll_rad, deg)}};
}

Json margin_entry(const std::optional<motion::Margin>& margin) {
  if (!margin) return nullptr;
  const auto fact = [](const motion::Fact& one) -> Json {
    return {{"value", number(one.value)}, {"standard_uncertainty", number(one.u)}};
  };
  return {{"at_address", fact(margin->at_address)},
          {"least", fact(margin->least)},
          {"cut_share", number(margin->cut_share)}};
}

Json part_entry(const motion::PartSeen& part) {
  return {{"part", motion::name_of(part.part)},
          {"at_address", number(part.at_address)},
          {"in_swing", number(part.in_swing)}};
}

}  // namespace

Json film_entry(const grade::FilmQuality& film) {
  const auto& facts = film.facts;
  return {{"view", intake::name_of(film.view)},
          {"verdict", grade::name_of(film.verdict())},
          {"criteria", list_of(film.judged, judgement_entry)},
          {"pictures", facts.pictures},
          {"shows_swing", facts.shows_swing},
          {"margins",
           {{"feet", margin_entry(facts.feet)},
            {"head", margin_entry(facts.head)},
            {"hands", margin_entry(facts.hands)}}},
          {"hands_step", number(facts.hands_step)},
          {"confidence", list_of(facts.parts, part_entry)},
          {"camera", camera_entry(film.camera)}};
}

}  // namespace rangecheck::report
