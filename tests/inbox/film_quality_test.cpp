// SPDX-License-Identifier: MIT
// From films to what is said of them.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <map>

#include "framed.hpp"
#include "inbox/filmed.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

using grade::FilmVerdict;
using intake::View;
using samples::Skeleton;

FilmVerdict verdict_of(const grade::FilmQuality& quality, std::string_view id) {
  for (const auto& one : quality.judged)
    if (one.criterion.id == id) return one.verdict;
  FAIL("no criterion ", id);
  return {};
}

#ifdef __SANITIZE_ADDRESS__
constexpr std::uint64_t golfers = 4;
#else
constexpr std::uint64_t golfers = 60;
#endif

TEST_CASE("film quality: cut-off feet and heads are told, and whole ones never called cut") {
  constexpr std::array skeletons{Skeleton::all, Skeleton::points_25, Skeleton::points_33,
                                 Skeleton::coco_17};
  int cut = 0, told = 0, whole = 0, wrong = 0, not_still = 0;
  for (std::uint64_t seed = 201; seed <= 200 + golfers; ++seed) {
    samples::Options options;
    options.views = {seed % 2 == 0 ? samples::View::face_on : samples::View::down_the_line};
    options.detector.skeleton = skeletons[seed % skeletons.size()];
    const auto film = samples::draw(seed, options).films[0];
    const auto truth = test::extent_of(film);
    for (const auto beyond : test::all_beyond) {
      for (const double margin : {-0.08, -0.021, 0.0, 0.03, 0.12}) {
        auto view = test::framed(film, 0, truth.sole_px + margin * truth.height_px(), beyond);
        if (options.detector.skeleton == Skeleton::points_33)
          view.film.estimator = intake::Estimator::points_33;
        auto filmed = read_film(view, "full");
        if (!filmed) {  // now and then a wild frame is a sixth of a golfer's short film
          ++not_still;
          continue;
        }
        const auto quality =
            grade::judge_film(grade::shipped_filming(), view.view, filmed->facts, std::nullopt);
        const auto verdict = verdict_of(quality, "feet-in-picture");
        CAPTURE(seed);
        CAPTURE(margin);
        CAPTURE(int(beyond));
        if (margin < -0.02) {
          ++cut;
          told += verdict == FilmVerdict::poor || verdict == FilmVerdict::fair;
          CHECK((verdict == FilmVerdict::poor || verdict == FilmVerdict::fair));
        } else {
          ++whole;
          wrong += verdict == FilmVerdict::poor;
          CHECK(verdict != FilmVerdict::poor);
          if (margin > 0.1) CHECK(verdict != FilmVerdict::fair);
        }
      }
    }
  }
  CHECK(not_still <= 0.03 * (cut + whole));
  MESSAGE(fmt::format("feet: {} of {} cut-off films told, {} of {} whole ones called cut off", told,
                      cut, wrong, whole));
}

/// Where a camera stands, truly.
std::map<std::string, double> placed(const samples::FilmedTruth& film) {
  const auto& camera = film.camera;
  const double x = -camera.position.x(), z = 0.20 - camera.position.z();
  return {
      {"camera-height", camera.position.y()},
      {"camera-square", film.view == samples::View::face_on ? std::atan2(x, -z) : std::atan2(z, x)},
      {"camera-roll", std::atan2(camera.axes(0, 1), -camera.axes(1, 1))}};
}

TEST_CASE("film quality: hardly a camera is called badly placed that is not") {
  struct Tally {
    int bad = 0, advised = 0, told = 0, others = 0, wrong = 0, good = 0, in_vain = 0;
  };
  for (const std::size_t count : {1U, 2U}) {
    std::map<std::string, Tally> tallies;
    for (std::uint64_t seed = 301; seed <= 300 + golfers; ++seed) {
      samples::Options options;
      if (count == 1)
        options.views = {seed % 2 == 0 ? samples::View::face_on : samples::View::down_the_line};
      options.placement.height_m = {0.2, 1.9};
      options.placement.bearing_sd_deg = 10;
      options.placement.roll_sd_deg = 4;
      const auto drawn = samples::draw(seed, options);
      posture::Evidence evidence{.views = {}, .stature = {}, .foot = {}};
      std::vector<motion::FilmFacts> facts;
      for (const auto& film : drawn.films) {
        auto filmed =
            read_film(test::framed(film, 0, film.camera.height_px, test::Beyond::guessed), "full");
        REQUIRE(filmed);
        evidence.views.push_back(filmed->address);
        facts.push_back(filmed->facts);
      }
      const auto posture = posture::estimate_address(evidence);
      REQUIRE(posture);
      for (std::size_t v = 0; v < count; ++v) {
        const auto quality = grade::judge_film(grade::shipped_filming(), evidence.views[v].view,
                                               facts[v], posture->cameras_seen[v]);
        for (const auto& [id, truth] : placed(drawn.films[v])) {
          const auto one =
              *std::ranges::find(quality.judged, id, [](const auto& j) { return j.criterion.id; });
          const bool is_bad = grade::distance_beyond(truth, one.criterion.fair) > 0;
          const bool is_good = grade::distance_beyond(truth, one.criterion.good) == 0;
          const bool told = one.verdict == FilmVerdict::poor;
          const bool advised = told || one.verdict == FilmVerdict::fair;
          Tally& tally = tallies[id];
          (is_bad ? tally.bad : tally.others) += 1;
          tally.told += is_bad && told;
          tally.wrong += !is_bad && told;
          tally.advised += is_bad && advised;
          tally.good += is_good;
          tally.in_vain += is_good && advised;
        }
      }
    }
    for (const auto& [id, tally] : tallies) {
      MESSAGE(
          fmt::format("{} film(s), {}: of {} badly placed {} called poor, {} advised; of {} "
                      "others {} called poor; of {} well placed {} advised",
                      count, id, tally.bad, tally.told, tally.advised, tally.others, tally.wrong,
                      tally.good, tally.in_vain));
      CAPTURE(id);
      // A verdict needs a probability of 0.9, so that a few in a hundred may be wrong.
      CHECK(tally.wrong <= 0.03 * tally.others + 1);
      CHECK(tally.in_vain <= 0.05 * tally.good + 1);
    }
  }
}

TEST_CASE("film quality: a graded submission has that of its films") {
  const Fixture fixture;
  std::filesystem::copy(
      std::filesystem::path(RANGECHECK_SOURCE_DIR) / "samples/inbox/s-0410-7-iron",
      fixture.folder() / "inbox/s-0410-7-iron", std::filesystem::copy_options::recursive);
  auto job = fixture.job();
  job.roster = std::filesystem::path(RANGECHECK_SOURCE_DIR) / "samples/roster.csv";
  const auto night = run_whole(job);
  REQUIRE(night);
  REQUIRE(night->graded.size() == 1);
  const auto& films = night->graded[0].films;
  REQUIRE(films.size() == 2);
  CHECK(films[0].view == View::face_on);
  CHECK(films[1].view == View::down_the_line);
  for (const auto& film : films) {
    REQUIRE(film.camera);
    CHECK(film.camera->view == film.view);
    CHECK(film.judged.size() == 14);
  }
}

}  // namespace
}  // namespace rangecheck::inbox
