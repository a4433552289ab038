// SPDX-License-Identifier: MIT
#include "intake/raw_film.hpp"

#include <fmt/format.h>

#include <cmath>

namespace rangecheck::intake {
namespace {

constexpr std::string_view cut_it = "cut the film to the swing itself";

/// Counts someone in.
void count(const RawPerson& person, RawFilm& film, const Spot& where) {
  film.points_added +=
      person.body.size() + person.space.size() + person.left_hand.size() + person.right_hand.size();
  if (++film.people_added > most_people_in_film) {
    refuse(where, Fault::not_a_film,
           fmt::format("is after {} people in the frames before", most_people_in_film),
           std::string(cut_it));
  }
  check_point_count(film.points_added, where);
}

}  // namespace

void RawFrame::add(RawPerson person, const Spot& where) {
  people.push_back(std::move(person));
  check_people_count(people.size(), where);
}

void RawFilm::add(RawFrame frame, const Spot& where) {
  check_frame_count(frames.size() + 1, where);
  check_people_count(frame.people.size(), where);
  for (const RawPerson& person : frame.people) count(person, *this, where);
  frames.push_back(std::move(frame));
}

void RawFilm::add(RawPerson person, std::size_t to_frame, const Spot& where) {
  count(person, *this, where);
  frames[to_frame].add(std::move(person), where);
}

void check_frame_count(std::size_t count, const Spot& where) {
  if (count <= most_frames) return;
  refuse(where, Fault::not_a_film, fmt::format("holds more than {} frames", most_frames),
         std::string(cut_it));
}

void check_people_count(std::size_t count, const Spot& where) {
  if (count <= most_people_in_frame) return;
  refuse(where, Fault::not_a_film,
         fmt::format("has more than {} people in one picture", most_people_in_frame),
         "export the golfer alone");
}

void check_point_count(std::size_t count, const Spot& where) {
  if (count <= most_points_in_film) return;
  refuse(where, Fault::not_a_film,
         fmt::format("is after {} points of the film", most_points_in_film), std::string(cut_it));
}

void check_facts(const RawFilm& raw, const Spot& where) {
  constexpr double largest_px = 100'000, fastest_hz = 100'000, slowest_hz = 0.01;
  constexpr double farthest_s = 1e11;  // three thousand years: clocks count from all sorts of days
  const auto refuse_film = [&](const Spot& at, std::string what) {
    refuse(at, Fault::bad_value, std::move(what), "correct it in the file, or leave it out");
  };
  const auto fits = [&](double px) { return px >= 1 && px <= largest_px; };
  if (raw.image && !(fits(raw.image->width_px) && fits(raw.image->height_px))) {
    refuse_film(where, fmt::format("says that the picture is {} × {}, which no film is",
                                   raw.image->width_px, raw.image->height_px));
  }
  const auto rate = raw.frame_rate_hz;
  if (rate && !(*rate >= slowest_hz && *rate <= fastest_hz)) {
    refuse_film(where,
                fmt::format("says that it has {} frames a second, which no film has", *rate));
  }
  for (std::size_t i = 0; i < raw.frames.size(); ++i) {
    const auto& time = raw.frames[i].time;
    if (!time || std::abs(time->in_seconds()) <= farthest_s) continue;
    refuse_film(where.in_frame(i),
                fmt::format("has a time of {} s, which no film has", time->in_seconds()));
  }
}

}  // namespace rangecheck::intake
