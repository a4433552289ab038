// SPDX-License-Identifier: MIT
// Files with points, compressed or not: landmark files of every form, and the file of a detector of
// clubs and balls, which is read beside a film. Several files of one film have a byte of 0 between
// them.
#include <fmt/format.h>

#include "base/read_file.hpp"
#include "fuzz.hpp"
#include "intake/club_points.hpp"
#include "intake/landmarks.hpp"
#include "made_up_film.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

/// Beyond 1e9 units a point is none; fractions are of a picture of 1080 by 1920, a unit of space
/// may be made larger where it has no size.
constexpr double farthest_px = 2e12;

void hold_image(const Person& person) {
  for (const auto& point : person.image.values()) {
    if (!point) continue;
    fuzz::hold_within({point->at.x_px, point->at.y_px}, farthest_px);
    fuzz::hold(point->confidence >= 0 && point->confidence <= 1, "confidence is from 0 to 1");
  }
}

void hold_space(const Person& person) {
  for (const auto& point : person.space.values()) {
    if (!point) continue;
    fuzz::hold(std::isfinite(point->x_m) && std::isfinite(point->y_m) && std::isfinite(point->z_m),
               "points in space are finite");
    fuzz::hold(point->confidence >= 0 && point->confidence <= 1, "confidence is from 0 to 1");
  }
}

void hold_film(const Film& film) {
  fuzz::hold(!film.frames.empty(), "a film has frames");
  fuzz::hold(!film.frame_rate_hz || (std::isfinite(*film.frame_rate_hz) && *film.frame_rate_hz > 0),
             "a frame rate is finite and more than 0");
  if (film.image) {
    fuzz::hold_within({film.image->width_px, film.image->height_px}, 1e5);
    fuzz::hold(film.image->width_px > 0 && film.image->height_px > 0, "a picture has a size");
  }
  const Frame* before = nullptr;
  for (const auto& frame : film.frames) {
    if (before) fuzz::hold(before->number < frame.number, "frames are in order");
    if (frame.time) fuzz::hold(std::isfinite(frame.time->in_seconds()), "times are finite");
    for (const auto& person : frame.people) {
      hold_image(person);
      hold_space(person);
    }
    before = &frame;
  }
}

void hold_refusal(const Error& error) {
  fuzz::hold_error(error, "film_");
  fuzz::hold(error.what.find("can't be read: ") == std::string::npos,
             "no reader throws what is not a refusal: " + error.what);
}

/// All that was read, as text.
std::string written(const Film& film) {
  std::string out = film.dialect;
  for (const auto& frame : film.frames) {
    out += fmt::format("\n{} {}", frame.number, frame.time ? frame.time->in_seconds() : -1);
    for (const auto& person : frame.people) {
      out += fmt::format(" / {}", person.track.value_or(-1));
      for (const auto& point : person.image.values())
        if (point)
          out += fmt::format(" {} {} {}", point->at.x_px, point->at.y_px, point->confidence);
      for (const auto& point : person.space.values())
        if (point) out += fmt::format(" {} {} {}", point->x_m, point->y_m, point->z_m);
    }
  }
  return out;
}

std::string outcome(const Result<Film>& film) {
  return film ? written(*film) : to_string(film.error());
}

void read_as_film(const std::vector<LandmarkText>& files, const ReadOptions& options) {
  const auto film = read_landmarks(files, options);
  if (film)
    hold_film(*film);
  else
    hold_refusal(film.error());
  fuzz::hold(outcome(film) == outcome(read_landmarks(files, options)), "reading is deterministic");
}

void read_as_club(const std::vector<LandmarkText>& files, const ReadOptions& options) {
  Film film = fuzz::made_up_film();
  const auto club = read_club_film(files, film, options.handedness);
  if (!club) return hold_refusal(club.error());
  fuzz::hold(!club->frames.empty(), "a club film has frames");
  if (const auto error = add_club_film(*club, film.frame_rate_hz, film))
    return hold_refusal(*error);
  for (const auto& frame : film.frames)
    for (const auto& person : frame.people) hold_image(person);
}

/// The bytes of one file as they come from the disk: unpacked where they are compressed.
std::optional<std::string> unpacked(std::string_view bytes) {
  static const fuzz::Folder folder;
  constexpr std::size_t limit = std::size_t{1} << 20;
  const auto read = read_file(folder.write("film.json.gz", bytes), "film.json.gz", limit);
  if (!read) {
    fuzz::hold_error(read.error(), "film.json.gz");
    return std::nullopt;
  }
  fuzz::hold(read->size() <= limit, "no more comes out than is asked for");
  return *read;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string_view bytes = fuzz::text_of(data, size);
  std::optional<std::string> inside;
  if (bytes.starts_with("\x1f\x8b")) {
    inside = unpacked(bytes);
    if (!inside) return 0;
    bytes = *inside;
  }
  std::vector<LandmarkText> files;
  for (auto& text : fuzz::files_in(bytes))
    files.push_back({fmt::format("film_{}.json", files.size()), std::move(text)});
  ReadOptions options;
  // Both hands, and pictures of known and unknown size, without a byte that says which.
  if (size % 2 == 0) options.image = ImageSize{1080, 1920};
  if (size % 3 == 0) options.handedness = Handedness::left;
  read_as_film(files, options);
  read_as_club(files, options);
  return 0;
}
