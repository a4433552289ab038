// SPDX-License-Identifier: MIT
#include "inbox/figures.hpp"

namespace rangecheck::inbox {
namespace {

/// `points` of any kind that has a place in the picture.
template <class Seen>
report::Figure figure_of(const Filmed& film, Position position, const LandmarkMap<Seen>& points,
                         bool left_handed) {
  report::Figure figure{
      .position = position, .view = film.address.view, .points = {}, .left_handed = left_handed};
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& seen = points.values()[i];
    if (!seen) continue;
    intake::ImagePoint at = seen->at;
    if (left_handed) at.x_px = film.address.image.width_px - at.x_px;
    figure.points.values()[i] = at;
  }
  return figure;
}

}  // namespace

std::vector<report::Figure> figures_of(std::span<const Filmed> films, const Swings& swings,
                                       bool left_handed) {
  std::vector<report::Figure> figures;
  for (const Position position : all_positions) {
    for (std::size_t i = 0; i < films.size(); ++i) {
      const Filmed& film = films[i];
      if (film.address.picture_is_drawn) continue;  // nobody filmed that picture
      if (position == Position::address) {
        figures.push_back(figure_of(film, position, film.address.still.points, left_handed));
        continue;
      }
      const auto& swing = swings.of_film[i];
      if (!swing || !(*swing)[position].found) continue;
      const auto instant = film.motion.track.at((*swing)[position].found->time);
      figures.push_back(figure_of(film, position, instant.points, left_handed));
    }
  }
  return figures;
}

}  // namespace rangecheck::inbox
