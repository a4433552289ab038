// SPDX-License-Identifier: MIT
#include "read_back.hpp"

#include <fmt/format.h>

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

namespace rangecheck::intake {
namespace {

using samples::Dialect;
using samples::PointOrder;
using samples::Scene;
using samples::SceneFrame;
using samples::ScenePerson;
using samples::ScenePoint;
using samples::SpaceHeld;

using Differences = std::vector<std::string>;

bool is_of_a_finger(LandmarkId id) {
  return id.joint >= Joint::thumb_1 && id.joint <= Joint::little_4;
}

bool is_in(const PointOrder& order, LandmarkId id) {
  return std::any_of(order.begin(), order.end(), [&](const auto& point) { return point.id == id; });
}

bool in_picture(const Dialect& dialect, LandmarkId id) {
  if (!dialect.holds.picture) return false;
  return is_in(dialect.points, id) || (dialect.holds.hands && is_of_a_finger(id));
}

bool in_space(const Dialect& dialect, LandmarkId id) {
  if (dialect.holds.space == SpaceHeld::none) return false;
  return is_in(dialect.space_points.empty() ? dialect.points : dialect.space_points, id);
}

/// Whether the point comes back, given that the files hold points of that name.
bool comes_back(const Dialect& dialect, const ScenePoint& point) {
  return point.seen() || !dialect.holds.missing;
}

void compare_presence(const char* where, LandmarkId id, bool expected, bool found,
                      Differences& out) {
  if (expected == found) return;
  out.push_back(fmt::format("{} {} {}", key_of(id), where,
                            expected ? "is missing" : "came back out of nothing"));
}

/// The confidence that the writers give.
double confidence_of(const Dialect& dialect, const ScenePoint& point) {
  if (!dialect.holds.confidence) return 1;
  return point.seen() ? point.confidence : samples::guessed_score;
}

void compare_confidence(LandmarkId id, double expected, double found, Differences& out) {
  constexpr double within = 0.00051;
  if (std::abs(expected - found) <= within) return;
  out.push_back(fmt::format("{} has confidence {}, not {}", key_of(id), found, expected));
}

void compare_picture(const Dialect& dialect, const ScenePerson& expected, const Person& found,
                     Differences& out) {
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const auto& point = expected.points[id];
    const bool held = point && in_picture(dialect, id) && comes_back(dialect, *point);
    compare_presence("in the picture", id, held, found.image.has(id), out);
    if (!held || !found.image.has(id)) continue;
    const Sighting& sighting = *found.image[id];
    const Eigen::Vector2d off(sighting.at.x_px - point->at_px.x(),
                              sighting.at.y_px - point->at_px.y());
    if (off.cwiseAbs().maxCoeff() > dialect.within_px) {
      out.push_back(fmt::format("{} is off by ({}, {}) px", key_of(id), off.x(), off.y()));
    }
    compare_confidence(id, confidence_of(dialect, *point), sighting.confidence, out);
  }
}

/// The points in space of one person as columns, expected and found, each about their mean.
struct Pairs {
  std::vector<LandmarkId> ids;
  Eigen::Matrix3Xd expected, found;
};

Pairs pairs_of(const Dialect& dialect, const ScenePerson& expected, const Person& found,
               Differences& out) {
  Pairs pairs;
  std::vector<Eigen::Vector3d> wanted, given;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const auto& point = expected.points[id];
    const bool held = point && in_space(dialect, id) && comes_back(dialect, *point);
    compare_presence("in space", id, held, found.space.has(id), out);
    if (!held || !found.space.has(id)) continue;
    const SpatialSighting& sighting = *found.space[id];
    pairs.ids.push_back(id);
    wanted.push_back(point->at_m);
    given.emplace_back(sighting.x_m, sighting.y_m, sighting.z_m);
    const double confidence = dialect.holds.space_confidence ? confidence_of(dialect, *point) : 1;
    compare_confidence(id, confidence, sighting.confidence, out);
  }
  const auto centred = [](const std::vector<Eigen::Vector3d>& points) -> Eigen::Matrix3Xd {
    Eigen::Matrix3Xd columns(3, static_cast<Eigen::Index>(points.size()));
    for (std::size_t i = 0; i < points.size(); ++i) columns.col(Eigen::Index(i)) = points[i];
    if (points.empty()) return columns;
    return columns.colwise() - columns.rowwise().mean();
  };
  pairs.expected = centred(wanted);
  pairs.found = centred(given);
  return pairs;
}

/// Turns `found` about the vertical to where it fits best.
void turn_to_fit(Pairs& pairs) {
  const auto x = pairs.found.row(0), z = pairs.found.row(2);
  const auto to_x = pairs.expected.row(0), to_z = pairs.expected.row(2);
  const double along = x.dot(to_x) + z.dot(to_z), across = z.dot(to_x) - x.dot(to_z);
  const double angle = std::atan2(across, along);
  Eigen::Matrix3d turn = Eigen::Matrix3d::Identity();
  turn(0, 0) = turn(2, 2) = std::cos(angle);
  turn(0, 2) = std::sin(angle);
  turn(2, 0) = -std::sin(angle);
  pairs.found = turn * pairs.found;
}

void compare_space(const Dialect& dialect, const ScenePerson& expected, const Person& found,
                   Differences& out) {
  Pairs pairs = pairs_of(dialect, expected, found, out);
  if (pairs.ids.empty()) return;
  if (dialect.holds.space == SpaceHeld::any_size) {
    pairs.found *= pairs.expected.norm() / pairs.found.norm();
  }
  if (dialect.holds.space != SpaceHeld::metres) turn_to_fit(pairs);
  for (std::size_t i = 0; i < pairs.ids.size(); ++i) {
    const auto column = static_cast<Eigen::Index>(i);
    const Eigen::Vector3d off = pairs.found.col(column) - pairs.expected.col(column);
    if (off.cwiseAbs().maxCoeff() > 2 * dialect.within_m) {
      out.push_back(fmt::format("{} is off by ({:.4f}, {:.4f}, {:.4f}) m", key_of(pairs.ids[i]),
                                off.x(), off.y(), off.z()));
    }
  }
}

void compare_person(const Dialect& dialect, const ScenePerson& expected, const Person& found,
                    Differences& out) {
  if (dialect.holds.picture) compare_picture(dialect, expected, found, out);
  compare_space(dialect, expected, found, out);
  const auto track = dialect.holds.tracks ? std::optional(expected.track) : std::nullopt;
  if (found.track != track) {
    out.push_back(
        fmt::format("track {} came back as {}", track.value_or(-1), found.track.value_or(-1)));
  }
}

/// The frames that come back, with the numbers that they come back with.
std::vector<SceneFrame> expected_frames(const Dialect& dialect, const Scene& scene) {
  std::vector<SceneFrame> frames;
  for (SceneFrame frame : scene.frames) {
    if (frame.people.empty() && !dialect.holds.empty_frames) continue;
    frame.number = dialect.holds.numbers ? frame.number + dialect.first_number : frames.size();
    if (!dialect.holds.people && frame.people.size() > 1) frame.people.resize(1);
    frames.push_back(std::move(frame));
  }
  return frames;
}

void compare_frame(const Dialect& dialect, const SceneFrame& expected, const Frame& found,
                   Differences& out) {
  if (found.number != expected.number) {
    out.push_back(fmt::format("frame {} is numbered {}", expected.number, found.number));
  }
  if (found.time.has_value() != dialect.holds.times) {
    out.push_back(found.time ? "a time came back out of nothing" : "the time is missing");
  } else if (found.time && std::abs(found.time->in_seconds() - expected.time_s) > 1e-5) {
    out.push_back(
        fmt::format("the time is {} s, not {} s", found.time->in_seconds(), expected.time_s));
  }
  if (found.people.size() != expected.people.size()) {
    out.push_back(
        fmt::format("{} people came back as {}", expected.people.size(), found.people.size()));
    return;
  }
  for (std::size_t i = 0; i < found.people.size(); ++i) {
    compare_person(dialect, expected.people[i], found.people[i], out);
  }
}

void compare_header(const Dialect& dialect, const Scene& scene, const Film& film,
                    Differences& out) {
  const bool rate_is_right =
      dialect.holds.frame_rate ? film.frame_rate_hz == scene.frame_rate_hz : !film.frame_rate_hz;
  if (!rate_is_right) out.push_back("the frame rate is wrong");
  if (film.confidence_given != dialect.holds.confidence) {
    out.push_back("whether confidences are given is wrong");
  }
  if (film.picture_is_drawn == dialect.holds.picture) {
    out.push_back("whether the picture is drawn is wrong");
  }
  if (!dialect.holds.picture) return;
  const bool size_is_right = film.image && film.image->width_px == scene.width_px &&
                             film.image->height_px == scene.height_px;
  if (!size_is_right) out.push_back("the picture's size is wrong");
}

}  // namespace

Result<Film> read_back(const Dialect& dialect, const Scene& scene) {
  std::vector<LandmarkText> files;
  for (const auto& [name, text] : dialect.write(scene)) files.push_back({name, text});
  ReadOptions options;
  options.layout = dialect.layout;
  if (!dialect.holds.image_size && dialect.holds.picture) {
    options.image = ImageSize{double(scene.width_px), double(scene.height_px)};
  }
  return read_landmarks(files, options);
}

std::vector<std::string> differences(const Dialect& dialect, const Scene& scene, const Film& film) {
  Differences out;
  compare_header(dialect, scene, film, out);
  const auto expected = expected_frames(dialect, scene);
  if (film.frames.size() != expected.size()) {
    out.push_back(fmt::format("{} frames came back as {}", expected.size(), film.frames.size()));
    return out;
  }
  for (std::size_t i = 0; i < expected.size(); ++i) {
    Differences here;
    compare_frame(dialect, expected[i], film.frames[i], here);
    for (const auto& each : here) out.push_back(fmt::format("frame {}: {}", i, each));
  }
  return out;
}

}  // namespace rangecheck::intake
