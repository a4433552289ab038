// SPDX-License-Identifier: MIT
#include "intake/manifest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/instant.hpp"
#include "base/text.hpp"
#include "intake/facts.hpp"
#include "intake/read_clicks.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 2> view_names = {"face-on", "down-the-line"};
constexpr std::array<std::string_view, 5> swing_names = {"full", "pitch", "chip", "bunker", "putt"};
constexpr std::array<std::string_view, 5> shoe_systems = {"mondopoint", "eu", "uk", "us-men",
                                                          "us-women"};

std::optional<FootLength> read_shoe(yaml::Map& golfer) {
  const YAML::Node node = golfer.node("shoe");
  if (!node) return std::nullopt;
  Result<FootLength> foot = Error{};
  if (node.IsScalar()) {
    foot = shoe_from(node.Scalar());
  } else {
    yaml::Map shoe(node, golfer.file(), golfer.place("shoe").key);
    int given = 0;
    for (const auto system : shoe_systems) {
      const auto size = shoe.optional_number(system);
      if (!size) continue;
      ++given;
      foot = foot_length(system, *size);
    }
    if (const auto error = shoe.finish()) {
      foot = *error;
    } else if (given != 1) {
      foot = Error{Fault::bad_value,
                   "should be one size in one system",
                   {},
                   "write it as { mondopoint: 275 }, { eu: 42 } or { uk: 9 }"};
    }
  }
  if (foot) return *foot;
  golfer.fault("shoe", foot.error().what, foot.error().remedy);
  return std::nullopt;
}

/// A list of texts, or one text.
std::vector<std::string> read_texts(yaml::Map& map, std::string_view key) {
  const YAML::Node node = map.node(key);
  if (!node || !node.IsSequence()) {
    const auto one = map.optional_text(key);
    return one ? std::vector<std::string>{*one} : std::vector<std::string>{};
  }
  std::vector<std::string> texts;
  for (const auto& item : node) {
    if (!item.IsScalar()) {
      map.fault(key, "should be a list of texts");
      return {};
    }
    texts.push_back(item.Scalar());
  }
  return texts;
}

Result<GolferFacts> read_golfer(const YAML::Node& node, const std::string& file) {
  yaml::Map map(node, file, "golfer");
  GolferFacts facts;
  facts.name = map.optional_text("name");
  facts.style = map.optional_text("style");
  if (map.has("limits")) facts.limits = read_texts(map, "limits");
  if (const auto written = map.optional_text("handedness")) {
    const auto read = handedness_from(*written);
    if (read) facts.handedness = *read;
    if (!read) map.fault("handedness", read.error().what, read.error().remedy);
  }
  if (const auto written = map.optional_text("stature")) {
    const auto read = stature_from(*written);
    if (read) facts.stature = *read;
    if (!read) map.fault("stature", read.error().what, read.error().remedy);
  }
  facts.foot = read_shoe(map);
  if (const auto error = map.finish()) return *error;
  return facts;
}

void read_marks(yaml::Map& map, ManifestView& view) {
  view.ball_place = map.place("ball");
  view.target_line_place = map.place("target-line");
  if (const YAML::Node ball = map.node("ball")) {
    view.ball_in_film = ball.IsScalar() && ball.Scalar() == key_of(Joint::ball);
    view.ball = point_of(ball);
    if (!view.ball && !view.ball_in_film) {
      map.fault("ball", "should be a point in pixels, or the word ball where the film shows it",
                "write it as [612, 1540]");
    }
  }
  if (const YAML::Node line = map.node("target-line")) {
    const bool two = line.IsSequence() && line.size() == 2;
    const auto near = two ? point_of(line[0]) : std::nullopt;
    const auto far = two ? point_of(line[1]) : std::nullopt;
    if (near && far) view.target_line = std::pair{*near, *far};
    if (!view.target_line) {
      map.fault("target-line", "should be two points in pixels, the second nearer the target",
                "write it as [[180, 1610], [930, 1602]]");
    }
  }
}

/// A number between two bounds, in the unit that the key or the format names.
std::optional<double> read_within(yaml::Map& map, std::string_view key, double least, double most) {
  const auto value = map.optional_number(key);
  if (value && (*value < least || *value > most)) {
    map.fault(key, fmt::format("{} is outside {} to {}", *value, least, most));
  }
  return value;
}

std::optional<Length> read_length(yaml::Map& map, std::string_view key, double most_m) {
  const auto value = map.optional_quantity(key, Dimension::length);
  if (!value) return std::nullopt;
  if (value->si <= 0 || value->si > most_m) {
    map.fault(key, fmt::format("{} m is outside 0 m to {} m", value->si, most_m));
  }
  return Length::metres(value->si);
}

std::optional<Error> read_image(const YAML::Node& node, const std::string& file,
                                const std::string& path, ManifestView& view) {
  constexpr double least = 16, most = 20000;
  yaml::Map map(node, file, path);
  const auto width = read_within(map, "width", least, most);
  const auto height = read_within(map, "height", least, most);
  if (!width) map.fault("width", "is missing", "write image: { width: 1080, height: 1920 }");
  if (!height) map.fault("height", "is missing", "write image: { width: 1080, height: 1920 }");
  view.image = ImageSize{width.value_or(0), height.value_or(0)};
  return map.finish();
}

std::optional<Error> read_camera(const YAML::Node& node, const std::string& file,
                                 const std::string& path, ManifestView& view) {
  yaml::Map map(node, file, path);
  view.camera.focal_px = read_within(map, "focal-px", 50, 200000);
  view.camera.height = read_length(map, "height", 20);
  view.camera.distance = read_length(map, "distance", 100);
  return map.finish();
}

Result<ManifestView> read_view(const YAML::Node& node, const std::string& file,
                               const std::string& path) {
  yaml::Map map(node, file, path);
  ManifestView view;
  view.view = find_view(map.choice("view", view_names)).value_or(View::face_on);
  view.landmarks_place = map.place("landmarks");
  view.landmarks = read_texts(map, "landmarks");
  if (view.landmarks.empty()) map.fault("landmarks", "is missing", "name the landmark file");
  view.layout_place = map.place("layout");
  view.layout = map.optional_text("layout").value_or("");
  view.frame_rate_hz = read_within(map, "frame-rate", 1, 10000);
  read_marks(map, view);
  view.club_points_place = map.place("club-points");
  view.club_points = read_texts(map, "club-points");
  const YAML::Node clicks = map.node("clicks");
  const YAML::Node image = map.node("image");
  const YAML::Node camera = map.node("camera");
  // An unknown key is more telling than what is wrong further in.
  if (const auto error = map.finish()) return *error;
  if (image) {
    if (const auto error = read_image(image, file, path + ".image", view)) return *error;
  }
  if (camera) {
    if (const auto error = read_camera(camera, file, path + ".camera", view)) return *error;
  }
  if (clicks) {
    auto read = read_clicks(clicks, file, path + ".clicks");
    if (!read) return read.error();
    view.clicks = std::move(*read);
  }
  return view;
}

std::optional<Error> read_views(const YAML::Node& node, yaml::Map& map, Manifest& manifest) {
  if (!node) map.fault("views", "is missing", "add this key");
  if (node && (!node.IsSequence() || node.size() < 1 || node.size() > 2)) {
    map.fault("views", "should be a list of one or two films", "start each with - view: face-on");
  }
  if (const auto error = map.finish()) return error;
  for (std::size_t i = 0; i < node.size(); ++i) {
    auto view = read_view(node[i], map.file(), fmt::format("views[{}]", i));
    if (!view) return view.error();
    if (!manifest.views.empty() && manifest.views.front().view == view->view) {
      map.fault("views", "both films are " + std::string(name_of(view->view)),
                "one is face-on, the other down-the-line");
      return map.finish();
    }
    manifest.views.push_back(std::move(*view));
  }
  return std::nullopt;
}

std::optional<Error> read_observed(const YAML::Node& node, const std::string& file,
                                   Manifest& manifest) {
  yaml::Map map(node, file, "observed");
  if (!node.IsMap()) return map.finish();
  for (const auto& entry : node) {
    const std::string& key = entry.first.Scalar();
    manifest.observed[key] = map.text(key);
  }
  return map.finish();
}

std::optional<Error> read_readings(const YAML::Node& node, const std::string& file,
                                   Manifest& manifest) {
  constexpr std::string_view angles[] = {"face-to-target", "club-path"};
  constexpr double most_deg = 90;
  yaml::Map map(node, file, "readings");
  for (const auto key : angles) {
    const auto value = map.optional_quantity(key, Dimension::angle);
    if (!value) continue;
    const double deg = Angle::radians(value->si).in_degrees();
    if (deg < -most_deg || deg > most_deg) {
      map.fault(key, fmt::format("{:.1f} deg is outside -90 deg to 90 deg", deg));
    }
    manifest.readings[std::string(key)] = *value;
  }
  return map.finish();
}

void read_head(yaml::Map& map, Manifest& manifest) {
  manifest.student = map.text("student");
  manifest.student_place = map.place("student");
  if (const auto why = why_unsafe(manifest.student)) {
    map.fault("student",
              rangecheck::quoted(manifest.student) + " can't be a student's id: it " + *why);
  }
  manifest.received = map.optional_text("received").value_or("");
  if (!manifest.received.empty() && !parse_instant(manifest.received)) {
    map.fault("received",
              rangecheck::quoted(manifest.received) + " isn't a date or a date with a time",
              "write it as 2026-03-14T18:22:00+02:00");
  }
  manifest.club = map.text("club");
  constexpr std::size_t longest_club = 60;
  if (manifest.club.empty() || manifest.club.size() > longest_club ||
      printable(manifest.club) != manifest.club) {
    map.fault("club", rangecheck::quoted(manifest.club) + " can't be a club", "write it as 7-iron");
  }
  if (map.has("swing")) manifest.swing = map.choice("swing", swing_names);
  manifest.same_swing = map.flag("same-swing", false);
}

}  // namespace

bool is_swing(std::string_view word) {
  return std::find(swing_names.begin(), swing_names.end(), word) != swing_names.end();
}

std::optional<View> find_view(std::string_view word) {
  if (word == view_names[0]) return View::face_on;
  if (word == view_names[1]) return View::down_the_line;
  return std::nullopt;
}

std::string_view name_of(View view) { return view_names[view == View::face_on ? 0 : 1]; }

Message view_as_message(View view) { return {"views." + std::string(name_of(view))}; }

Message film_as_message(View view) { return {"evidence." + std::string(name_of(view)) + "-film"}; }

Result<Manifest> read_manifest(const std::string& text, const std::string& file) {
  const auto root = yaml::parse(text, file);
  if (!root) return root.error();
  yaml::Map map(*root, file);
  Manifest manifest;
  read_head(map, manifest);
  const YAML::Node golfer = map.node("golfer");
  const YAML::Node observed = map.node("observed");
  const YAML::Node readings = map.node("readings");
  const YAML::Node views = map.node("views");
  if (const auto error = read_views(views, map, manifest)) return *error;
  if (golfer) {
    auto facts = read_golfer(golfer, file);
    if (!facts) return facts.error();
    manifest.golfer = std::move(*facts);
  }
  if (observed) {
    if (const auto error = read_observed(observed, file, manifest)) return *error;
  }
  if (readings) {
    if (const auto error = read_readings(readings, file, manifest)) return *error;
  }
  return manifest;
}

}  // namespace rangecheck::intake
