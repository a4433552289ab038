// SPDX-License-Identifier: MIT
#include "report/inspection.hpp"
#include "report/json_parts.hpp"

namespace rangecheck::report {
namespace {

constexpr int inspection_version = 1;

Json image_entry(const Inspection& film) {
  if (!film.image) return nullptr;
  return {{"width_px", number(film.image->width_px)},
          {"height_px", number(film.image->height_px)},
          {"stand_in", film.image_is_stand_in}};
}

Json moment_entry(const Inspection::Moment& moment) {
  Json entry = {{"position", id_of(moment.position)}, {"found", moment.found.has_value()}};
  if (moment.found) {
    entry["time_s"] = number(moment.found->time.in_seconds());
    entry["standard_uncertainty_s"] = number(moment.found->standard_uncertainty.in_seconds());
    entry["frame"] = moment.frame;
    entry["from"] = moment.found->from_club ? "club" : "hands";
  } else {
    entry["reason"] = moment.reason;
  }
  return entry;
}

Json landmark_entry(const Inspection::Landmark& one) {
  return {{"landmark", key_of(one.id)},
          {"frames_share", number(one.frames_share)},
          {"confidence", number(one.confidence)},
          {"jitter_u_px", number(one.jitter_u_px)}};
}

Json showing_entry(const Inspection::Showing& one) {
  return {{"what", one.what}, {"measures", one.rules}};
}

}  // namespace

std::string inspection_json(const Inspection& film, std::optional<int> indent) {
  Json people = Json::array();
  for (const auto& [count, frames] : film.frames_with)
    people.push_back({{"people", count}, {"frames", frames}});
  Json still = nullptr;
  if (film.still) still = {{"first", film.still->first}, {"last", film.still->last}};
  const Json document = {{"format", "rangecheck-inspection"},
                         {"version", inspection_version},
                         {"file", film.file},
                         {"form", film.form},
                         {"image", image_entry(film)},
                         {"frames", film.frames},
                         {"people", std::move(people)},
                         {"file_rate_hz", number(film.file_rate_hz)},
                         {"confidence_given", film.confidence_given},
                         {"view", intake::name_of(film.view)},
                         {"view_from", film.view_from},
                         {"golfer_certainty", number(film.golfer_certainty)},
                         {"golfer_fault", film.golfer_fault},
                         {"still", std::move(still)},
                         {"still_fault", film.still_fault},
                         {"positions", list_of(film.moments, moment_entry)},
                         {"quality", film.quality ? film_entry(*film.quality) : Json()},
                         {"landmarks", list_of(film.landmarks, landmark_entry)},
                         {"can_show", list_of(film.can_show, showing_entry)},
                         {"cannot_show", list_of(film.cannot_show, showing_entry)},
                         {"notes", list_of(film.notes, in_english)}};
  return written(document, indent);
}

}  // namespace rangecheck::report
