// SPDX-License-Identifier: MIT
#include "generator/papers.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "generator/written.hpp"

namespace rangecheck::samples {
namespace {

/// As a person would say it: whole centimetres.
std::string stature_text(const Body& body) {
  return fmt::format("{:.0f} cm", body.stature_m * 100);
}

/// A shoe is sold for the whole foot, which reaches a little farther than heel and toe points.
double shoe_foot_m(const Body& body) { return body.foot_m + 0.003; }

/// In halves: 1.5 (length in cm + 1.5).
double european_size(const Body& body) {
  return std::round(3 * (shoe_foot_m(body) * 100 + 1.5)) / 2;
}

/// Millimetres in steps of five.
double mondopoint(const Body& body) { return std::round(shoe_foot_m(body) * 200) * 5; }

std::string_view word(Hand hand) { return hand == Hand::right ? "right" : "left"; }
std::string_view word(Family family) { return family == Family::preset ? "preset" : "neutral"; }

std::string pixels(const Film& film, const Eigen::Vector2d& at) {
  return fmt::format("[{:.0f}, {:.0f}]", shot_x_px(film, at.x()), at.y());
}

std::string view_lines(const DrawnSample& sample, std::size_t i) {
  const FilmedTruth& filmed = sample.drawn.films[i];
  const FilmPlan& plan = sample.film_plan(i);
  const Film film = sample.film(i);
  const bool misspelt = sample.plan.defect == Defect::misspelt_key && i == 0;
  std::string text = fmt::format("  - view: {}\n", name_of(sample.label(i)));
  text += fmt::format("    landmarks: {}\n", sample.landmark_file(i));
  if (plan.written_as != WrittenAs::depth_camera_gzipped)
    text += fmt::format("    image: {{ width: {}, height: {} }}\n", film.width_px, film.height_px);
  text +=
      fmt::format("    {}: {:.0f}\n", misspelt ? "frame-rte" : "frame-rate", film.frame_rate_hz);
  if (plan.ball) text += fmt::format("    ball: {}\n", pixels(film, filmed.marked.ball_px));
  if (plan.stick) {
    const auto& [near, far] = filmed.marked.stick_px;
    text += fmt::format("    target-line: [{}, {}]\n", pixels(film, near), pixels(film, far));
  }
  if (plan.camera_notes) {
    const CameraNotes& notes = filmed.notes;
    text +=
        fmt::format("    camera: {{ focal-px: {:.0f}, height: {:.2f} m, distance: {:.2f} m }}\n",
                    notes.focal_px, notes.height_m, notes.distance_m);
  }
  if (plan.club_file) text += fmt::format("    club-points: {}\n", sample.club_file_name(i));
  return text;
}

Json rounded_point(const Eigen::Vector3d& point) {
  return {rounded(point.x(), 4), rounded(point.y(), 4), rounded(point.z(), 4)};
}

Json camera_json(const Camera& camera) {
  Json rows = Json::array();
  for (int row = 0; row < 3; ++row) {
    rows.push_back({rounded(camera.axes(row, 0), 6), rounded(camera.axes(row, 1), 6),
                    rounded(camera.axes(row, 2), 6)});
  }
  return {{"R", rows},
          {"pos", rounded_point(camera.position)},
          {"f", rounded(camera.focal_px, 1)},
          {"image", {camera.width_px, camera.height_px}}};
}

Json joints_json(const Points& points) {
  Json joints = Json::object();
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& point = points[landmark_at(i)];
    if (point) joints[key_of(landmark_at(i))] = rounded_point(*point);
  }
  return joints;
}

Json measures_json(const Points& points) {
  Json measures = Json::object();
  for (const auto& [name, value] : true_measures(points)) measures[name] = rounded(value, 2);
  return measures;
}

/// A measure as a coach reads it by eye. How far he errs is invented, and no claim about coaches.
struct ReadByEye {
  const char* measure;  ///< in true_measures
  std::string_view check, unit;
  double noise;  ///< standard deviation
  int decimals;
};
constexpr std::array read_by_eye = {ReadByEye{"stance_width_in", "stance-width", "in", 0.5, 1},
                                    ReadByEye{"lead_knee_flex", "lead-knee-flexion", "deg", 3, 0},
                                    ReadByEye{"forward_bend", "forward-bend", "deg", 3, 0},
                                    ReadByEye{"side_bend", "side-bend", "deg", 3, 0},
                                    ReadByEye{"shoulder_tilt", "shoulder-tilt", "deg", 3, 0}};

Json swing_json(const DrawnSample& sample) {
  const DrawnSwing& swing = *sample.swing;
  Json films = Json::object(), positions = Json::object();
  for (std::size_t i = 0; i < swing.films.size(); ++i) {
    Json times = Json::object();
    for (const auto position : all_positions) {
      const auto& time_s = swing.films[i].event_s[position];
      if (time_s) times[std::string(id_of(position))] = rounded(*time_s, 4);
    }
    films[std::string(name_of(sample.label(i)))] = times;
  }
  for (const auto position : all_positions) {
    const auto& points = swing.mean_at_event[position];
    if (!points) continue;
    positions[std::string(id_of(position))] = {{"joints_m", joints_json(*points)},
                                               {"measures", measures_json(*points)}};
  }
  return {{"times_s", films}, {"positions", positions}};
}

/// The films' frames and cameras, with the golfer as he stands at address.
Drawn drawn_of(const DrawnSwing& swing) {
  Drawn drawn{swing.golfer, {}};
  for (const auto& film : swing.films) {
    drawn.films.push_back(
        {film.view, film.camera, swing.golfer.points, film.frames, film.marked, film.notes});
  }
  return drawn;
}

}  // namespace

DrawnSample::DrawnSample(Sample planned) : plan(std::move(planned)) {
  if (!plan.filmed_swing) {
    drawn = draw(plan.seed, plan.options);
    return;
  }
  SwingOptions options = *plan.filmed_swing;
  options.base = plan.options;
  swing = draw_swing(plan.seed, options);
  drawn = drawn_of(*swing);
}

Film DrawnSample::film(std::size_t film) const {
  Film written = film_of(drawn.films[film], plan.frame_rate_hz, plan.hand);
  if (swing) written.numbers = swing->films[film].number;
  return written;
}

std::string DrawnSample::landmark_file(std::size_t film) const {
  const std::string stem(name_of(label(film)));
  if (plan.loose) return plan.id() + "_" + stem + ".json";
  switch (film_plan(film).written_as) {
    case WrittenAs::one_file_a_frame:
      return stem;
    case WrittenAs::plain_gzipped:
    case WrittenAs::points_33_gzipped:
    case WrittenAs::points_26_gzipped:
    case WrittenAs::depth_camera_gzipped:
      return stem + ".json.gz";
    default:
      return stem + ".json";
  }
}

std::string DrawnSample::club_file_name(std::size_t film) const {
  return std::string(name_of(label(film))) + "-club.json";
}

std::string manifest(const DrawnSample& sample) {
  const Sample& plan = sample.plan;
  const Body& body = sample.drawn.golfer.body;
  std::string text = fmt::format(
      "# yaml-language-server: $schema=../../../profiles/schemas/manifest.schema.json\n"
      "student: {}\nreceived: 2026-{}T{}:22:00+01:00\nclub: {}\nswing: {}\n",
      plan.student, plan.is_second() ? "04-11" : "03-14", 10 + plan.seed % 10, plan.club,
      plan.swing);
  if (plan.facts_in_manifest) {
    text +=
        fmt::format("golfer: {{ handedness: {}, stature: {}, shoe: {{ mondopoint: {:.0f} }} }}\n",
                    word(plan.hand), stature_text(body), mondopoint(body));
  }
  text += "views:\n";
  for (std::size_t i = 0; i < sample.drawn.films.size(); ++i) text += view_lines(sample, i);
  if (sample.drawn.films.size() > 1) {
    text += fmt::format("same-swing: {}\n", plan.options.same_swing);
  }
  return text + plan.more;
}

std::string roster(const std::vector<DrawnSample>& samples) {
  std::string text = "id,name,handedness,stature,shoe,style,limits\n";
  for (const auto& sample : samples) {
    const Sample& plan = sample.plan;
    if (plan.facts_in_manifest || plan.is_second()) continue;
    const Body& body = sample.drawn.golfer.body;
    text += fmt::format("{},{},{},{},EU {},{},{}\n", plan.student, plan.name, word(plan.hand),
                        stature_text(body), european_size(body), word(plan.options.family),
                        plan.limits);
  }
  return text;
}

std::string readings(const std::vector<DrawnSample>& samples) {
  constexpr std::uint64_t part = 300;  // of the random numbers
  std::string text = "submission,check,value,unit\n";
  for (const auto& sample : samples) {
    auto random = Random::for_part(sample.plan.seed, part);
    const auto measures = true_measures(sample.drawn.golfer.points);
    for (const auto& [measure, check, unit, noise, decimals] : read_by_eye)
      text += fmt::format("{},{},{:.{}f},{}\n", sample.plan.id(), check,
                          rounded(random.normal(measures.at(measure), noise), decimals), decimals,
                          unit);
  }
  return text;
}

std::string truth(const DrawnSample& sample) {
  const Golfer& golfer = sample.drawn.golfer;
  Json cameras = Json::object();
  for (std::size_t i = 0; i < sample.drawn.films.size(); ++i) {
    cameras[std::string(name_of(sample.label(i)))] = camera_json(sample.drawn.films[i].camera);
  }
  Json document = {{"stature_m", rounded(golfer.body.stature_m, 4)},
                   {"style", word(sample.plan.options.family)},
                   {"joints_m", joints_json(golfer.points)},
                   {"cameras", cameras},
                   {"measures", measures_json(golfer.points)}};
  if (sample.swing) document["swing"] = swing_json(sample);
  return document.dump(1) + "\n";
}

}  // namespace rangecheck::samples
