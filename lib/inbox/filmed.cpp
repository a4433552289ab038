// SPDX-License-Identifier: MIT
#include "inbox/filmed.hpp"

#include "pose/golfer.hpp"

namespace rangecheck::inbox {

std::size_t Filmed::frame_at(Duration time) const {
  return frame_numbers[motion.clock.frame_at(time)];
}

posture::ViewEvidence evidence_of(const intake::FilmedView& view, const motion::Still& still) {
  return {.view = view.view,
          .estimator = view.film.estimator,
          .image = view.film.image.value_or(intake::ImageSize{}),
          .space = view.film.space,
          .picture_is_drawn = view.film.picture_is_drawn,
          .still = still,
          .ball = view.ball,
          .target_line = view.target_line,
          .camera = view.camera};
}

Result<Filmed> read_film(const intake::FilmedView& view, std::string_view swing) {
  const std::string film(intake::name_of(view.view));
  const auto in_film = [&film](Error error) {
    if (error.where.file.empty()) error.where.file = film;
    return error;
  };
  const auto track = pose::follow_golfer(view);
  if (!track) return in_film(track.error());
  const auto rate = view.frame_rate_hz ? view.frame_rate_hz : view.film.frame_rate_hz;
  auto motion = motion::film_motion(*track, rate, swing);
  if (!motion) return in_film(motion.error());

  Filmed out{.address = evidence_of(view, motion->address),
             .motion = *std::move(motion),
             .facts = {},
             .space = std::nullopt,
             .notes = {},
             .frame_numbers = {}};
  out.facts = motion::film_facts(*track, view.film, out.motion.clock, &out.motion);
  if (posture::space_counts(out.address)) {
    out.space = motion::smooth_space(*track, out.motion.clock);
  }
  for (const auto& frame : track->frames) out.frame_numbers.push_back(frame.number);
  const auto add = [&](const std::vector<Message>& notes) {
    for (const auto& note : notes)
      out.notes.push_back({"notes.of-film",
                           {said("film", intake::film_as_message(view.view)), said("note", note)}});
  };
  add(view.film.notes);
  add(track->notes);
  add(out.motion.notes);
  return out;
}

}  // namespace rangecheck::inbox
