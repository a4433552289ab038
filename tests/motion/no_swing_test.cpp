// SPDX-License-Identifier: MIT
// People who move and do not swing: made up here, and of real estimators where a folder is given.
#include <cstdlib>
#include <filesystem>
#include <functional>

#include "intake/landmarks.hpp"
#include "motion/film_motion.hpp"
#include "motion/moving.hpp"

namespace rangecheck {
namespace {

using test::Hands;

constexpr std::string_view kinds[] = {"full", "pitch", "chip", "putt"};
constexpr intake::View views[] = {intake::View::face_on, intake::View::down_the_line};

/// What a person does to the standing figure, by time; shifts over the person's height, x to the
/// right of the picture and up.
struct Pose {
  Hands lead, trail;
  double sinks = 0;       ///< everything above the knees
  double walks = 0;       ///< everything
  double foot_ahead = 0;  ///< lead foot one way, trail foot the other
};
using Doing = std::function<Pose(double time_s)>;

pose::Track film_of(const Doing& doing, double rate_hz, double seconds, intake::View view) {
  pose::Track out;
  out.view = view;
  std::mt19937_64 random(7);
  std::normal_distribution<double> jitter_px(0, 1.5);
  const test::Placed placed;
  for (std::size_t f = 0; f < static_cast<std::size_t>(seconds * rate_hz); ++f) {
    const Pose now = doing(static_cast<double>(f) / rate_hz);
    auto person = test::figure(placed);
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const LandmarkId id = landmark_at(i);
      auto& point = person.image[id];
      if (!point) continue;
      const bool foot =
          id.joint == Joint::ankle || id.joint == Joint::heel || id.joint == Joint::big_toe;
      const double side = id.side == Side::lead ? 1 : -1;
      double x = now.walks + (foot ? side * now.foot_ahead : 0), up = foot ? 0 : -now.sinks;
      if (id.joint == Joint::wrist) {
        const Hands& hand = id.side == Side::lead ? now.lead : now.trail;
        x += hand.aside;
        up += hand.up;
      }
      point->at.x_px += x * placed.height_px + jitter_px(random);
      point->at.y_px -= up * placed.height_px + jitter_px(random);
    }
    out.frames.push_back({f, std::nullopt, person});
  }
  return out;
}

/// Up within `rise_s`, held, down within `fall_s`, held: again and again.
double up_and_down(double time_s, double rise_s, double fall_s, double hold_s) {
  const double t = std::fmod(time_s, rise_s + fall_s + 2 * hold_s);
  const auto smooth = [](double share) {
    const double s = std::clamp(share, 0.0, 1.0);
    return s * s * (3 - 2 * s);
  };
  return smooth((t - hold_s) / rise_s) - smooth((t - hold_s - rise_s - hold_s) / fall_s);
}

struct Named {
  const char* what;
  Doing doing;
};

const Named doings[] = {
    {"stands", [](double) { return Pose{}; }},
    {"walks by",
     [](double t) {
       const double swing = 0.1 * std::sin(2 * M_PI * t);
       return Pose{{swing, 0.02}, {-swing, 0.02}, 0, 0.4 * t - 0.8, swing};
     }},
    {"walks on the spot with wide arms",
     [](double t) {
       const double swing = 0.2 * std::sin(2 * M_PI * t);
       return Pose{{swing, 0.1}, {-swing, 0.1}, 0, 0, 0};
     }},
    {"raises both arms",
     [](double t) {
       const double up = 0.5 * up_and_down(t, 0.7, 0.6, 0.4);
       return Pose{{0.2 * up, up}, {-0.2 * up, up}};
     }},
    {"raises clasped hands and lets them fall",
     [](double t) {
       const double up = 0.5 * up_and_down(t, 0.9, 0.3, 0.3);
       return Pose{{0, up}, {0, up}};
     }},
    {"pumps clasped hands without a stop",
     [](double t) {
       const double up = 0.5 * up_and_down(t, 0.5, 0.3, 0);
       return Pose{{0.05 * up, up}, {0.05 * up, up}};
     }},
    {"squats with the arms forward",
     [](double t) {
       const double down = up_and_down(t, 0.8, 0.6, 0.1);
       return Pose{{0, 0.3 * down}, {0, 0.3 * down}, 0.2 * down};
     }},
    {"squats with the hands together",
     [](double t) {
       const double down = up_and_down(t, 0.8, 0.4, 0.1);
       return Pose{{0.01, 0}, {-0.01, 0}, 0.22 * down};
     }},
    {"waves with one hand",
     [](double t) {
       return Pose{{0.1 + 0.12 * std::sin(2 * M_PI * 1.5 * t), 0.45}, {}};
     }},
    {"greets: a hand goes up, waves and falls",
     [](double t) {
       const double up = 0.5 * up_and_down(t, 0.5, 0.3, 0.5);
       return Pose{{0.1 * up, up}, {}};
     }},
    {"sways with clasped hands overhead",
     [](double t) {
       const double aside = 0.2 * std::sin(2 * M_PI * 0.7 * t);
       return Pose{{aside, 0.5}, {aside, 0.5}};
     }},
    {"reaches up to a shelf",
     [](double t) {
       const double up = 0.5 * up_and_down(t, 0.8, 0.5, 1.0);
       return Pose{{0.15 * up, up}, {0.1 * up, 0.8 * up}};
     }},
};

TEST_CASE("people who do something else do not swing") {
  for (const auto& [what, doing] : doings) {
    for (const double rate_hz : {30.0, 60.0}) {
      for (const auto view : views) {
        const auto track = film_of(doing, rate_hz, 4, view);
        const auto clock = motion::clock_of(track, rate_hz);
        REQUIRE(clock);
        const auto smoothed = motion::smooth(track, *clock);
        for (const auto kind : kinds) {
          CAPTURE(what);
          CAPTURE(rate_hz);
          const std::string seen{intake::name_of(view)}, as{kind};
          CAPTURE(seen);
          CAPTURE(as);
          CHECK_FALSE(motion::find_swing(smoothed, view, kind));
        }
      }
    }
  }
}

/// As it is, and as a left-hander's.
std::vector<intake::Film> read_both_ways(const std::filesystem::path& path) {
  std::vector<intake::Film> out;
  const auto texts = intake::read_landmark_files(path, path.filename().string());
  if (!texts) return out;
  for (const auto hand : {intake::Handedness::right, intake::Handedness::left}) {
    auto film = intake::read_landmarks(*texts, intake::ImageSize{1080, 1920}, hand);
    if (film) out.push_back(*std::move(film));
  }
  return out;
}

void check_no_swing(const intake::Film& film) {
  for (const auto view : views) {
    intake::FilmedView filmed;
    filmed.view = view;
    filmed.film = film;
    const auto track = pose::follow_golfer(filmed);
    if (!track) continue;
    const auto clock = motion::clock_of(*track, std::nullopt);
    if (!clock) continue;
    const auto smoothed = motion::smooth(*track, *clock);
    for (const auto kind : kinds) {
      const std::string seen{intake::name_of(view)}, as{kind};
      CAPTURE(seen);
      CAPTURE(as);
      CHECK_FALSE(motion::find_swing(smoothed, view, kind));
    }
  }
}

TEST_CASE("people before real estimators who do something else do not swing") {
  // A folder of folders with one estimator's files each; no golfer among the people.
  const char* folder = std::getenv("RANGECHECK_POSE_SAMPLES");
  if (folder == nullptr) {
    MESSAGE("skipped: RANGECHECK_POSE_SAMPLES is not set");
    return;
  }
  int moving = 0;
  for (const auto& estimator : std::filesystem::directory_iterator(folder)) {
    if (!estimator.is_directory()) continue;
    for (const auto& entry : std::filesystem::directory_iterator(estimator)) {
      const std::string file = entry.path().filename().string();
      CAPTURE(file);
      for (const auto& film : read_both_ways(entry.path())) {
        if (film.frames.size() < 2) continue;
        ++moving;
        check_no_swing(film);
      }
    }
  }
  CHECK(moving > 0);
}

}  // namespace
}  // namespace rangecheck
