// SPDX-License-Identifier: MIT
#include "generator/writer.hpp"

#include <fmt/format.h>
#include <zlib.h>

#include <array>
#include <cmath>
#include <stdexcept>

#include "generator/written.hpp"

namespace rangecheck::samples {
namespace {

using Triple = std::array<double, 3>;

/// x, y to a tenth of a pixel and the confidence, as shot.
Triple triple(const Film& film, const Detected& point) {
  return {rounded(shot_x_px(film, point.at_px.x()), 1), rounded(point.at_px.y(), 1),
          rounded(point.confidence, 3)};
}

Json flat_triples(const Film& film, const DetectedFrame& person, std::span<const Mix> layout) {
  Json numbers = Json::array();
  for (const auto& mix : layout) {
    for (const double number :
         triple(film, mixed(person.image, as_drawn(mix, film.hand), &Detected::at_px))) {
      numbers.push_back(number);
    }
  }
  return numbers;
}

std::string anatomical_name(LandmarkId id, Hand hand) {
  if (id.side == Side::centre) return key_of(id);
  const bool left = (id.side == Side::lead) == (hand == Hand::right);
  return (left ? "left_" : "right_") + std::string(key_of(id.joint));
}

constexpr LandmarkId left(Joint joint) { return lead(joint); }
constexpr LandmarkId right(Joint joint) { return trail(joint); }

const Mix coco_17[] = {centre(Joint::nose),    left(Joint::eye),    right(Joint::eye),
                       left(Joint::ear),       right(Joint::ear),   left(Joint::shoulder),
                       right(Joint::shoulder), left(Joint::elbow),  right(Joint::elbow),
                       left(Joint::wrist),     right(Joint::wrist), left(Joint::hip),
                       right(Joint::hip),      left(Joint::knee),   right(Joint::knee),
                       left(Joint::ankle),     right(Joint::ankle)};

const Mix points_25[] = {centre(Joint::nose),
                         centre(Joint::neck),
                         right(Joint::shoulder),
                         right(Joint::elbow),
                         right(Joint::wrist),
                         left(Joint::shoulder),
                         left(Joint::elbow),
                         left(Joint::wrist),
                         {{{left(Joint::hip), 0.5}, {right(Joint::hip), 0.5}}},
                         right(Joint::hip),
                         right(Joint::knee),
                         right(Joint::ankle),
                         left(Joint::hip),
                         left(Joint::knee),
                         left(Joint::ankle),
                         right(Joint::eye),
                         left(Joint::eye),
                         right(Joint::ear),
                         left(Joint::ear),
                         left(Joint::big_toe),
                         left(Joint::small_toe),
                         left(Joint::heel),
                         right(Joint::big_toe),
                         right(Joint::small_toe),
                         right(Joint::heel)};

}  // namespace

double rounded(double value, int decimals) {
  const double scale = std::pow(10, decimals);
  return std::round(value * scale) / scale;
}

Mix as_drawn(Mix anatomical, Hand hand) {
  if (hand == Hand::left) {
    for (auto& part : anatomical.parts) part.id = mirrored(part.id);
  }
  return anatomical;
}

Film film_of(const FilmedTruth& filmed, double frame_rate_hz, Hand hand) {
  Film film{filmed.camera.width_px, filmed.camera.height_px, frame_rate_hz, hand, {}, {}};
  for (const auto& frame : filmed.frames) film.frames.push_back({frame});
  return film;
}

double shot_x_px(const Film& film, double x_px) {
  return film.hand == Hand::right ? x_px : film.width_px - x_px;
}

std::string plain_form(const Film& film) {
  Json frames = Json::array();
  for (std::size_t number = 0; number < film.frames.size(); ++number) {
    Json people = Json::array();
    for (const auto& person : film.frames[number]) {
      Json points = Json::object();
      for (std::size_t i = 0; i < landmark_count; ++i) {
        const auto id = landmark_at(i);
        const auto& point = person.image[id];
        if (point) points[anatomical_name(id, film.hand)] = triple(film, *point);
      }
      people.push_back({{"points", points}});
    }
    frames.push_back({{"frame", film.number(number)}, {"people", people}});
  }
  const Json document = {{"format", "rangecheck-landmarks"},
                         {"version", 1},
                         {"image", {{"width", film.width_px}, {"height", film.height_px}}},
                         {"frame-rate", film.frame_rate_hz},
                         {"frames", frames}};
  return document.dump() + "\n";
}

std::string coco_results(const Film& film) {
  Json results = Json::array();
  for (std::size_t number = 0; number < film.frames.size(); ++number) {
    for (const auto& person : film.frames[number]) {
      results.push_back({{"image_id", film.number(number)},
                         {"category_id", 1},
                         {"keypoints", flat_triples(film, person, coco_17)},
                         {"score", 0.97}});
    }
  }
  return results.dump() + "\n";
}

std::vector<NamedText> one_file_a_frame(const Film& film, const std::string& stem) {
  std::vector<NamedText> files;
  for (std::size_t number = 0; number < film.frames.size(); ++number) {
    Json people = Json::array();
    for (const auto& person : film.frames[number]) {
      people.push_back(
          {{"person_id", {-1}}, {"pose_keypoints_2d", flat_triples(film, person, points_25)}});
    }
    const Json document = {{"version", 1.3}, {"people", people}};
    files.push_back({fmt::format("{}_{:012}_keypoints.json", stem, film.number(number)),
                     document.dump() + "\n"});
  }
  return files;
}

std::string gzipped(std::string_view text) {
  constexpr int window_with_gzip_header = 15 + 16, memory = 8;
  z_stream stream{};
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, window_with_gzip_header, memory,
                   Z_DEFAULT_STRATEGY) != Z_OK) {
    throw std::runtime_error("zlib does not start");
  }
  std::string packed(deflateBound(&stream, text.size()), '\0');
  std::string input(text);
  stream.next_in = reinterpret_cast<Bytef*>(input.data());
  stream.avail_in = static_cast<uInt>(input.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  const int ended = deflate(&stream, Z_FINISH);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  if (ended != Z_STREAM_END) throw std::runtime_error("zlib does not finish");
  return packed;
}

}  // namespace rangecheck::samples
