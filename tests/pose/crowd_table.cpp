// SPDX-License-Identifier: MIT
// For people: what pose makes of films with several people.
//   crowd_table [COUNT [FIRST-SEED]]        every kind of scene
//   crowd_table film KIND SEED FILE.json    one scene and its track, to be drawn
//   crowd_table signs COUNT FIRST-SEED      what is asked about each person, for fit_certainty.py
#include <fmt/format.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include "drawn_film.hpp"
#include "pose/choose.hpp"
#include "pose/crowds.hpp"
#include "said.hpp"

namespace rangecheck::test {
namespace {

void print_kind(const CrowdKind& kind, int count, std::uint64_t first_seed) {
  int graded = 0, wrong_films = 0;
  std::size_t frames = 0, left_out = 0, wrong = 0, points = 0, dropped = 0;
  std::map<std::string, int> refused;
  std::string wrong_seeds;
  for (int i = 0; i < count; ++i) {
    const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(i);
    const auto crowd = crowd_of(kind, seed);
    const auto outcome = judge(crowd, pose::follow_golfer(film_of(crowd)));
    if (!outcome.refused.empty()) {
      ++refused[outcome.refused];
      continue;
    }
    frames += outcome.frames;
    left_out += outcome.left_out;
    points += outcome.points;
    dropped += outcome.points_dropped;
    wrong += outcome.wrong;
    wrong_films += outcome.wrong > 0;
    graded += outcome.wrong == 0;
    if (outcome.wrong > 0) wrong_seeds += fmt::format(" {}({})", seed, outcome.wrong);
  }
  const auto percent = [](std::size_t part, std::size_t whole) {
    return 100.0 * static_cast<double>(part) / static_cast<double>(std::max<std::size_t>(1, whole));
  };
  fmt::print("{:<22}{:>7}{:>8}{:>9}{:>12.2f}{:>12.2f}{:>7} films{:>7} frames\n", kind.name, count,
             graded, count - graded - wrong_films, percent(left_out, frames),
             percent(dropped, points), wrong_films, wrong);
  for (const auto& [why, times] : refused) fmt::print("    refused {}: {}\n", times, why);
  if (!wrong_seeds.empty()) fmt::print("    wrong:{}\n", wrong_seeds);
}

nlohmann::json points_of(const intake::Person& person) {
  nlohmann::json out;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& point = person.image.values()[i];
    if (point) out[key_of(landmark_at(i))] = {point->at.x_px, point->at.y_px, point->confidence};
  }
  return out;
}

int write_film(std::string_view name, std::uint64_t seed, const std::string& file) {
  for (const auto& kind : crowd_kinds()) {
    if (kind.name != name) continue;
    const auto crowd = crowd_of(kind, seed);
    const auto film = film_of(crowd);
    const auto alone = film_of(crowd.golfer);
    const auto track = pose::follow_golfer(film);
    nlohmann::json out;
    out["size"] = {film.film.image->width_px, film.film.image->height_px};
    out["said"] = track ? fmt::format("{}", fmt::join(in_english(track->notes), "; "))
                        : to_string(track.error());
    for (std::size_t f = 0; f < film.film.frames.size(); ++f) {
      nlohmann::json frame;
      frame["own"] = points_of(alone.film.frames[f].people.front());
      frame["people"] = nlohmann::json::array();
      for (const auto& person : film.film.frames[f].people)
        frame["people"].push_back(points_of(person));
      if (track && track->frames[f].person) frame["track"] = points_of(*track->frames[f].person);
      out["frames"].push_back(std::move(frame));
    }
    std::ofstream(file) << out;
    return 0;
  }
  fmt::print(stderr, "no such kind\n");
  return 2;
}

/// Whether most of what was seen of someone is the golfer.
bool is_golfer(const samples::CrowdFilm& crowd, const pose::Sightings& sightings,
               const pose::Someone& person) {
  std::size_t own = 0;
  for (const auto& stretch : person.stretches) {
    for (const auto& at : stretch.seen) {
      const auto alone = pose::shape_of(person_of(crowd.golfer.frames[at.frame]));
      own += pose::distance(alone, sightings.shape(at), alone.height_px).value_or(1) < 0.02;
    }
  }
  return 2 * own > person.frames();
}

/// One line a person: film, whether it is the golfer, frames, the answers.
int write_signs(int count, std::uint64_t first_seed) {
  int film_number = 0;
  for (const auto& kind : crowd_kinds()) {
    for (int i = 0; i < count; ++i, ++film_number) {
      const auto crowd = crowd_of(kind, first_seed + static_cast<std::uint64_t>(i));
      const auto film = film_of(crowd);
      const auto sightings = pose::sightings_of(film.film, film.frame_rate_hz);
      const auto people = pose::people_of(sightings);
      const auto candidates = pose::candidates_of(sightings, people, film);
      for (std::size_t k = 0; k < people.size(); ++k) {
        fmt::print("{} {} {}", film_number, is_golfer(crowd, sightings, people[k]) ? 1 : 0,
                   people[k].frames());
        for (const double answer : candidates[k].answers) fmt::print(" {:.5f}", answer);
        fmt::print(" {}\n", kind.name);
      }
    }
  }
  return 0;
}

int table(int count, std::uint64_t first_seed) {
  fmt::print("{:<22}{:>7}{:>8}{:>9}{:>12}{:>12}{:>13}\n", "scene", "films", "right", "refused",
             "left out %", "dropped %", "WRONG");
  for (const auto& kind : crowd_kinds()) print_kind(kind, count, first_seed);
  return 0;
}

}  // namespace
}  // namespace rangecheck::test

int main(int argc, char** argv) {
  using namespace rangecheck::test;
  if (argc == 5 && std::string_view(argv[1]) == "film")
    return write_film(argv[2], std::strtoull(argv[3], nullptr, 10), argv[4]);
  if (argc == 4 && std::string_view(argv[1]) == "signs")
    return write_signs(std::atoi(argv[2]), std::strtoull(argv[3], nullptr, 10));
  return table(argc > 1 ? std::atoi(argv[1]) : 300,
               argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1);
}
