// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "close.hpp"
#include "intake/submission.hpp"
#include "scratch.hpp"

namespace rangecheck::intake {

/// A folder that goes when the test does.
struct Scratch : test::Scratch {
  void write(const std::string& name, const std::string& bytes) const {
    const auto file = path / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << bytes;
  }
};

inline constexpr ImageSize portrait{1000, 2000};

inline Result<Film> read(const std::string& json, std::optional<ImageSize> image = portrait,
                         Handedness handedness = Handedness::right) {
  return read_landmarks({{"film.json", json}}, image, handedness);
}

/// The whole text of the error that reading gives; fails the test when there is none.
inline std::string error_of(const std::string& json, std::optional<ImageSize> image = portrait) {
  const auto film = read(json, image);
  REQUIRE_FALSE(film);
  return to_string(film.error());
}

/// "a,b,a,b" with `text` `times` times.
inline std::string repeated(const std::string& text, int times) {
  std::string out;
  for (int i = 0; i < times; ++i) out += (i == 0 ? "" : ",") + text;
  return out;
}

/// `count` triples: point i at (first + i, 1000 + i) with confidence 0.5.
inline std::string triples(int count, int first) {
  std::string out;
  for (int i = 0; i < count; ++i) {
    out +=
        (i == 0 ? "" : ",") + std::to_string(first + i) + ',' + std::to_string(1000 + i) + ",0.5";
  }
  return out;
}

/// The only person of a frame.
inline const Person& person_in(const Film& film, std::size_t frame = 0) {
  REQUIRE(frame < film.frames.size());
  REQUIRE(film.frames[frame].people.size() == 1);
  return film.frames[frame].people.front();
}

/// x of a landmark in the picture; fails the test when it is missing.
inline double x_of(const Person& person, LandmarkId id) {
  CAPTURE(key_of(id));
  REQUIRE(person.image.has(id));
  return person.image[id]->at.x_px;
}

}  // namespace rangecheck::intake
