// SPDX-License-Identifier: MIT
#include "intake/submission.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "intake/errors.hpp"
#include "intake/landmark_files.hpp"
#include "intake/manifest.hpp"
#include "intake/origin.hpp"

namespace rangecheck::intake {
namespace {

/// The file's nearest neighbour by name, for "did you mean".
std::string nearest_file(const Origin& origin, const std::string& wanted) {
  const auto names = origin.files->names_in("", origin.name);
  if (!names) return "";
  const std::vector<std::string_view> views(names->begin(), names->end());
  return printable(nearest(wanted, views));
}

/// The bytes of the files that the manifest names at `place`.
Result<std::vector<LandmarkText>> read_texts(const std::vector<std::string>& names,
                                             const Place& place, const Origin& origin) {
  std::vector<LandmarkText> texts;
  std::size_t left = largest_film;
  for (const auto& written : names) {
    if (const auto why = why_foreign(written)) {
      return error_at(place, rangecheck::quoted(written) + ' ' + *why,
                      "put the file beside submission.yaml and write its name");
    }
    if (!origin.files->has(written)) {
      const std::string near = nearest_file(origin, written);
      return error_at(place, "there is no file " + rangecheck::quoted(written),
                      near.empty() ? "" : "did you mean " + near + "?");
    }
    auto read = read_landmark_files(*origin.files, written, origin.name_of(written));
    if (!read) return read.error();
    for (const LandmarkText& text : *read) {
      if (text.bytes.size() > left) {
        return error_at(place, "the files of this film are larger than 256 MiB together",
                        "cut the film to the swing itself");
      }
      left -= text.bytes.size();
    }
    std::move(read->begin(), read->end(), std::back_inserter(texts));
  }
  return texts;
}

/// Why a mark can't be in this picture, if so.
std::optional<std::string> why_outside(ImagePoint point, ImageSize image) {
  if (point.x_px >= 0 && point.y_px >= 0 && point.x_px <= image.width_px &&
      point.y_px <= image.height_px) {
    if (point.x_px > 1 || point.y_px > 1) return std::nullopt;
    return fmt::format("[{}, {}] looks like fractions of the picture", point.x_px, point.y_px);
  }
  return fmt::format("[{}, {}] is outside the picture of {} × {} pixels", point.x_px, point.y_px,
                     image.width_px, image.height_px);
}

bool shows_ball(const Film& film) {
  for (const auto& frame : film.frames) {
    for (const auto& person : frame.people) {
      if (person.image.has(centre(Joint::ball))) return true;
    }
  }
  return false;
}

/// A mark in the picture as the film has it: turned over for a left-hander.
ImagePoint turned(ImagePoint point, const Film& film, Handedness handedness) {
  if (handedness == Handedness::right) return point;
  return {film.image->width_px - point.x_px, point.y_px};
}

/// True when the second point is on the target's side: to the right of the first in front of the
/// camera, farther away (higher in the picture) for a camera behind the golfer.
bool points_to_target(const std::pair<ImagePoint, ImagePoint>& line, View view) {
  if (view == View::face_on) return line.second.x_px > line.first.x_px;
  return line.second.y_px < line.first.y_px;
}

std::optional<Error> place_marks(const ManifestView& facts, Handedness handedness,
                                 FilmedView& view) {
  constexpr std::string_view pixels = "give points in pixels of the film";
  if (facts.ball_in_film && !shows_ball(view.film)) {
    return error_at(facts.ball_place, "no person in the film has a point named ball",
                    "write the ball's place in pixels, as [612, 1540]");
  }
  if (facts.ball) {
    if (const auto why = why_outside(*facts.ball, *view.film.image)) {
      return error_at(facts.ball_place, *why, std::string(pixels));
    }
    view.ball = turned(*facts.ball, view.film, handedness);
  }
  if (!facts.target_line) return std::nullopt;
  for (const ImagePoint point : {facts.target_line->first, facts.target_line->second}) {
    if (const auto why = why_outside(point, *view.film.image)) {
      return error_at(facts.target_line_place, *why, std::string(pixels));
    }
  }
  view.target_line = std::pair{turned(facts.target_line->first, view.film, handedness),
                               turned(facts.target_line->second, view.film, handedness)};
  if (!points_to_target(*view.target_line, view.view)) {
    return error_at(facts.target_line_place, "points away from the target",
                    "write the point nearer the target second, or check view and handedness");
  }
  return std::nullopt;
}

/// That the point set which the manifest names is none, if so.
std::optional<Error> check_layout(const ManifestView& facts, const LayoutSet& layouts) {
  if (facts.layout.empty() || layouts.find(facts.layout)) return std::nullopt;
  std::vector<std::string_view> names;
  for (const auto& layout : layouts.all()) names.push_back(layout.name);
  const std::string near = nearest(facts.layout, names);
  return error_at(
      facts.layout_place, "there is no point set " + rangecheck::quoted(facts.layout),
      near.empty() ? "rangecheck layouts lists them all" : "did you mean " + near + "?");
}

/// Club and ball from a detector's file, and over them what a person marked.
std::optional<Error> add_club(const ManifestView& facts, const Origin& origin,
                              Handedness handedness, FilmedView& view) {
  const bool has_file = !facts.club_points.empty();
  if (view.film.picture_is_drawn && (has_file || !facts.clicks.empty())) {
    return error_at(has_file ? facts.club_points_place : facts.clicks.front().place,
                    "there is no picture: the film has points in space only",
                    "use a film that has points in the picture too");
  }
  if (has_file) {
    const auto texts = read_texts(facts.club_points, facts.club_points_place, origin);
    if (!texts) return texts.error();
    const auto club = read_club_film(*texts, view.film, handedness);
    if (!club) return club.error();
    if (auto error = add_club_film(*club, view.frame_rate_hz, view.film)) return error;
  }
  for (const Click& click : facts.clicks) {
    for (const auto& [joint, at] : click.points) {
      if (const auto why = why_outside(at, *view.film.image)) {
        return error_at(click.place, std::string(key_of(joint)) + ' ' + *why,
                        "give points in pixels of the film");
      }
    }
  }
  return add_clicks(facts.clicks, view.frame_rate_hz, handedness, view.film);
}

Result<FilmedView> read_view(const ManifestView& facts, const Origin& origin, Handedness handedness,
                             const LayoutSet& layouts) {
  if (const auto error = check_layout(facts, layouts)) return *error;
  const auto texts = read_texts(facts.landmarks, facts.landmarks_place, origin);
  if (!texts) return texts.error();
  auto film = read_landmarks(*texts, ReadOptions{.image = facts.image,
                                                 .handedness = handedness,
                                                 .layouts = &layouts,
                                                 .layout = facts.layout});
  if (!film) return film.error();
  if (!film->image) {
    return error_at(file_place(texts->front().name), "the size of the picture isn't known",
                    "add image: { width: …, height: … } to this view in submission.yaml");
  }
  FilmedView view;
  view.view = facts.view;
  view.film = std::move(*film);
  view.frame_rate_hz = facts.frame_rate_hz ? facts.frame_rate_hz : view.film.frame_rate_hz;
  view.camera = facts.camera;
  if (const auto error = add_club(facts, origin, handedness, view)) return *error;
  if (const auto error = place_marks(facts, handedness, view)) return *error;
  return view;
}

/// The roster's golfer with what the manifest says on top.
Result<Golfer> golfer_of(const Manifest& manifest, const Roster& roster) {
  Golfer golfer;
  golfer.id = manifest.student;
  const auto found = roster.find(manifest.student);
  if (found != roster.end()) golfer = found->second;
  if (found == roster.end() && !manifest.golfer) {
    std::vector<std::string_view> ids;
    for (const auto& [id, known] : roster) ids.push_back(id);
    const std::string near = nearest(manifest.student, ids);
    return error_at(manifest.student_place,
                    "student " + rangecheck::quoted(manifest.student) + " isn't in the roster",
                    near.empty() ? "add the student to the roster, or golfer: to submission.yaml"
                                 : "did you mean " + near + "?");
  }
  if (!manifest.golfer) return golfer;
  const GolferFacts& facts = *manifest.golfer;
  if (facts.name) golfer.name = *facts.name;
  if (facts.handedness) golfer.handedness = *facts.handedness;
  if (facts.stature) golfer.stature = facts.stature;
  if (facts.foot) golfer.foot = facts.foot;
  if (facts.style) golfer.style = *facts.style;
  if (facts.limits) golfer.limits = *facts.limits;
  return golfer;
}

/// Reads and validates one submission whole, wherever it is.
Result<Submission> read_from(const Origin& origin, const Roster& roster, const LayoutSet& layouts) {
  auto manifest = manifest_of(origin);
  if (!manifest) return manifest.error();
  auto golfer = golfer_of(*manifest, roster);
  if (!golfer) return golfer.error();
  Submission submission;
  submission.id = origin.id;
  submission.student = manifest->student;
  submission.received = manifest->received;
  submission.club = manifest->club;
  submission.swing = manifest->swing;
  submission.same_swing = manifest->same_swing;
  submission.observed = manifest->observed;
  submission.readings = manifest->readings;
  for (const auto& facts : manifest->views) {
    auto view = read_view(facts, origin, golfer->handedness, layouts);
    if (!view) return view.error();
    submission.views.push_back(std::move(*view));
  }
  submission.golfer = std::move(*golfer);
  return submission;
}

}  // namespace

Result<Sender> read_sender(const Location& location) {
  const auto origin = origin_of(location);
  if (!origin) return origin.error();
  auto manifest = manifest_of(*origin);
  if (!manifest) return manifest.error();
  return Sender{std::move(manifest->student), std::move(manifest->received),
                std::move(manifest->club), std::move(manifest->swing)};
}

Result<Submission> read_submission(const Location& location, const Roster& roster,
                                   const LayoutSet& layouts) {
  const auto origin = origin_of(location);
  if (!origin) return origin.error();
  return read_from(*origin, roster, layouts);
}

Result<Submission> read_submission(const Record& record, const Roster& roster,
                                   const LayoutSet& layouts) {
  return read_from(origin_of(record), roster, layouts);
}

}  // namespace rangecheck::intake
