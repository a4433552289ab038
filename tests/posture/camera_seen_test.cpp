// SPDX-License-Identifier: MIT
// Where cameras stood, against where they did: made-up films and rendered ones.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include "close.hpp"
#include "drawn_film.hpp"
#include "posture/evidence.hpp"
#include "posture/population.hpp"
#include "posture/unknowns.hpp"

namespace rangecheck::posture {
namespace {

using test::Films;

constexpr double deg_per_rad = 180 / M_PI;

/// Height, distance, off square, pitch, roll: metres and degrees.
using Numbers = std::array<double, 5>;
constexpr std::array names{"height (m)", "distance (m)", "off square (deg)", "pitch (deg)",
                           "roll (deg)"};

/// By plain trigonometry: `axes` has rows image right, image down, forward.
Numbers truth_of(intake::View view, const Eigen::Matrix3d& axes, const Point& at) {
  const double away_x = at.x() - look_at.x(), away_z = at.z() - look_at.z();
  const double too_far_left =
      view == intake::View::face_on ? std::atan2(-away_x, away_z) : std::atan2(-away_z, -away_x);
  return {at.y(), std::hypot(away_x, away_z), too_far_left * deg_per_rad,
          std::asin(-axes(2, 1)) * deg_per_rad, std::atan2(axes(0, 1), -axes(1, 1)) * deg_per_rad};
}

std::array<Uncertain, 5> told(const CameraSeen& seen) {
  const auto deg = [](Uncertain rad) {
    return Uncertain{rad.value * deg_per_rad, rad.u * deg_per_rad};
  };
  return {seen.height_m, seen.distance_m, deg(seen.off_square_rad), deg(seen.pitch_rad),
          deg(seen.roll_rad)};
}

/// How the five numbers did over films.
struct Tally {
  int films = 0;
  std::array<int, 5> covered{};
  Numbers squared_error{}, u{};

  void add(const Numbers& truth, const CameraSeen& seen) {
    ++films;
    const auto all = told(seen);
    for (std::size_t i = 0; i < all.size(); ++i) {
      covered[i] += std::abs(all[i].value - truth[i]) <= 1.96 * all[i].u;
      squared_error[i] += std::pow(all[i].value - truth[i], 2);
      u[i] += all[i].u;
    }
  }
  double coverage(std::size_t i) const { return double(covered[i]) / films; }
  double rms(std::size_t i) const { return std::sqrt(squared_error[i] / films); }
  double mean_u(std::size_t i) const { return u[i] / films; }
  std::string table(std::string_view title) const {
    std::string text = fmt::format("{}, {} films: RMS error, mean u, in 95 %\n", title, films);
    for (std::size_t i = 0; i < names.size(); ++i)
      text += fmt::format("  {:<17} {:7.3f} {:7.3f} {:5.1f} %\n", names[i], rms(i), mean_u(i),
                          100 * coverage(i));
    return text;
  }
};

Tally made_up(Films films, intake::View wanted, int count) {
  Tally out;
  for (std::uint64_t seed = 1; seed <= static_cast<std::uint64_t>(count); ++seed) {
    const auto drawn = samples::draw(seed, test::options_for(seed, films));
    const auto posture = estimate_address(test::evidence_of(drawn, seed));
    if (!posture) continue;
    for (std::size_t v = 0; v < drawn.films.size(); ++v) {
      const auto view = test::view_of(drawn.films[v].view);
      if (view != wanted) continue;
      const auto& camera = drawn.films[v].camera;
      REQUIRE(posture->cameras_seen[v].view == view);
      out.add(truth_of(view, camera.axes, camera.position), posture->cameras_seen[v]);
    }
  }
  return out;
}

TEST_CASE("where a camera stood is told with an uncertainty that holds, on made-up films") {
  const int count = test::many_golfers ? 150 : 4;
  using enum intake::View;
  for (const auto& [title, films, view] :
       {std::tuple{"face-on alone", Films::face_on, face_on},
        std::tuple{"down-the-line alone", Films::down_the_line, down_the_line},
        std::tuple{"face-on of two", Films::both, face_on},
        std::tuple{"down-the-line of two", Films::both, down_the_line}}) {
    const Tally tally = made_up(films, view, count);
    MESSAGE(tally.table(title));
    if (!test::many_golfers) continue;
    REQUIRE(tally.films >= 140);
    for (std::size_t i = 0; i < names.size(); ++i) {
      CAPTURE(names[i]);
      CHECK(tally.coverage(i) >= 0.88);
    }
  }
}

TEST_CASE("where a camera stood is told of rendered films, whose estimator is a real one") {
  const std::filesystem::path films = std::filesystem::path(RANGECHECK_SOURCE_DIR) / "tests/films";
  for (const bool both : {false, true}) {
    Tally tally;
    for (int i = 0; i < 8; ++i) {
      const auto folder = films / fmt::format("address-0{}", i);
      const auto submission = intake::read_submission({folder.filename(), {}, folder}, {});
      REQUIRE(submission);
      const auto truth = nlohmann::json::parse(std::ifstream(folder / "truth.json"));
      const auto whole = test::evidence_of(*submission);
      for (std::size_t v = 0; v < whole.views.size(); ++v) {
        Evidence evidence = whole;
        if (!both) evidence.views = {whole.views[v]};
        const auto posture = estimate_address(evidence);
        REQUIRE(posture);
        const auto view = whole.views[v].view;
        const auto& camera = truth["cameras"][std::string(intake::name_of(view))];
        Eigen::Matrix3d axes;
        for (int r = 0; r < 3; ++r)
          for (int c = 0; c < 3; ++c) axes(r, c) = camera["R"][r][c];
        const Point at(camera["pos"][0], camera["pos"][1], camera["pos"][2]);
        tally.add(truth_of(view, axes, at), posture->cameras_seen[both ? v : 0]);
      }
    }
    MESSAGE(tally.table(both ? "rendered, two films" : "rendered, one film"));
    REQUIRE(tally.films == 16);
    for (std::size_t i = 0; i < names.size(); ++i) {
      CAPTURE(names[i]);
      CHECK(tally.covered[i] >= 14);
    }
  }
}

}  // namespace
}  // namespace rangecheck::posture
