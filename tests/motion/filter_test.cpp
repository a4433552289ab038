// SPDX-License-Identifier: MIT
// Filters against numbers of other people and another library.
#include "motion/filter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <numbers>
#include <random>
#include <sstream>

#include "second_route.hpp"

namespace rangecheck::motion {
namespace {

using Columns = std::vector<std::vector<double>>;

/// The columns of a table under tests/published.
Columns published(const std::string& name) {
  std::ifstream file(RANGECHECK_SOURCE_DIR "/tests/published/" + name);
  Columns out;
  bool titles = true;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#')) continue;
    if (std::exchange(titles, false)) {
      out.resize(1 + static_cast<std::size_t>(std::count(line.begin(), line.end(), ',')));
      continue;
    }
    std::istringstream fields(line);
    for (auto& column : out) {
      std::string field;
      std::getline(fields, field, ',');
      column.push_back(std::stod(field));
    }
  }
  REQUIRE_FALSE(out.empty());
  return out;
}

constexpr double pezzack_hz = 1 / 0.0201;

std::vector<double> noise_of(double sigma, std::size_t count, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal(0, sigma);
  std::vector<double> out(count);
  for (double& each : out) each = normal(random);
  return out;
}

/// Movements of 0.8 and 2.3 Hz of 20 and 5 units.
std::vector<double> movement_of(std::size_t count, double rate_hz) {
  std::vector<double> out(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double turns = 2 * std::numbers::pi * static_cast<double>(i) / rate_hz;
    out[i] = 20 * std::sin(0.8 * turns) + 5 * std::cos(2.3 * turns);
  }
  return out;
}

double root_mean_square(const std::vector<double>& of) {
  double sum = 0;
  for (const double each : of) sum += each * each;
  return std::sqrt(sum / static_cast<double>(of.size()));
}

}  // namespace

TEST_CASE("a second-order Butterworth low-pass has the other library's coefficients") {
  const auto table = published("butterworth.csv");
  REQUIRE(table[0].size() == 8);
  for (std::size_t row = 0; row < table[0].size(); ++row) {
    const auto [b, a] = butterworth_2(table[0][row]);
    for (std::size_t k = 0; k < 3; ++k) CHECK_CLOSE(b[k], table[1 + k][row], 1e-13);
    CHECK(a[0] == 1);
    CHECK_CLOSE(a[1], table[4][row], 1e-13);
    CHECK_CLOSE(a[2], table[5][row], 1e-13);
  }
}

TEST_CASE("forward and backward gives what the other library gives") {
  const auto angle = published("pezzack.csv")[1];
  const auto table = published("forward_backward.csv");
  const double cutoffs[] = {0.05, 0.25, 0.8};
  for (std::size_t column = 0; column < 3; ++column) {
    const auto ours = forward_backward(butterworth_2(cutoffs[column]), angle);
    REQUIRE(ours.size() == table[column].size());
    for (std::size_t i = 0; i < ours.size(); ++i) CHECK_CLOSE(ours[i], table[column][i], 1e-12);
  }
}

TEST_CASE("any samples filter as the other library filters them") {
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> any_cutoff(0.02, 0.98);
  std::string lines;
  std::vector<double> ours;
  for (const std::size_t count : {10U, 11U, 37U, 400U}) {
    const double cutoff = any_cutoff(random);
    auto samples = noise_of(30, count, count);
    for (double& each : samples) each += 500;
    lines += fmt::format("butter {}\nfiltfilt {} {}\n", cutoff, cutoff, fmt::join(samples, " "));
    const auto filter = butterworth_2(cutoff);
    ours.insert(ours.end(), filter.b.begin(), filter.b.end());
    ours.insert(ours.end(), filter.a.begin() + 1, filter.a.end());
    const auto smooth = forward_backward(filter, samples);
    ours.insert(ours.end(), smooth.begin(), smooth.end());
  }
  const auto answer = test::by_another_library("motion/filters.py", lines);
  if (!answer) {
    MESSAGE("skipped: /usr/bin/python3 has no scipy");
    return;
  }
  std::istringstream numbers(*answer);
  for (const double each : ours) {
    double theirs = 0;
    numbers >> theirs;
    REQUIRE_FALSE(numbers.fail());
    CHECK_CLOSE(each, theirs, 1e-10);
  }
}

TEST_CASE("nine samples are too few to filter") {
  const auto samples = noise_of(1, 9, 1);
  CHECK(forward_backward(butterworth_2(0.1), samples) == samples);
}

TEST_CASE("two passes have their 3 dB point where it was asked for") {
  for (const double rate_hz : {30.0, 240.0}) {
    for (const double share : {0.05, 0.2, 0.4}) {
      const double cutoff_hz = share * rate_hz;
      const auto filter = butterworth_2(dual_pass_cutoff(cutoff_hz, rate_hz));
      std::vector<double> wave(4000);
      for (std::size_t i = 0; i < wave.size(); ++i)
        wave[i] = std::sin(2 * std::numbers::pi * share * static_cast<double>(i));
      CHECK_CLOSE(root_mean_square(forward_backward(filter, wave)) / root_mean_square(wave),
                  std::numbers::sqrt2 / 2, 0.002);
    }
  }
  // Far below the rate the share of the two passes is Winter's 0.802: a single-pass cut-off of
  // 1 / 0.802 of 6 Hz. At half the rate and above there is nothing to filter.
  CHECK_CLOSE(dual_pass_cutoff(6, 10000) * 5000, 6 / 0.802, 0.005);
  CHECK(dual_pass_cutoff(15, 30) == 0.99);
}

TEST_CASE("white noise is left as large as the noise gain says") {
  const auto noise = noise_of(2, 20000, 7);
  for (const double cutoff : {0.05, 0.2, 0.6}) {
    const auto filter = butterworth_2(cutoff);
    const double left = root_mean_square(forward_backward(filter, noise)) / root_mean_square(noise);
    CHECK_CLOSE(noise_gain(filter), left, 0.04 * left);
  }
  CHECK_CLOSE(noise_gain({}), 1, 1e-12);
}

TEST_CASE("residual analysis of a published movement") {
  const auto table = published("pezzack.csv");
  // 5.59 Hz is what a public implementation finds that chooses its own straight part
  // (github.com/BMClab/BMC, test of optcutfreq on the same angle).
  const auto raw = residual_analysis(table[1], pezzack_hz);
  CHECK_CLOSE(raw.cutoff_hz, 5.59, 0.8);
  // The noisy column is the angle with normal noise added: its size is known from the two.
  std::vector<double> added;
  for (std::size_t i = 0; i < table[1].size(); ++i) added.push_back(table[2][i] - table[1][i]);
  const auto noisy = residual_analysis(table[2], pezzack_hz);
  CHECK_CLOSE(noisy.noise, std::hypot(root_mean_square(added), raw.noise), 0.0008);
  CHECK(noisy.cutoff_hz < raw.cutoff_hz);
}

TEST_CASE("the residuals' line meets the axis at the size of white noise") {
  for (const double rate_hz : {30.0, 60.0, 240.0}) {
    for (const auto& [count, within] : {std::pair{20U, 0.25}, std::pair{60U, 0.1},
                                        std::pair{300U, 0.05}, std::pair{3000U, 0.03}}) {
      CAPTURE(rate_hz);
      CAPTURE(count);
      double sum = 0;
      constexpr int films = 40;
      for (int film = 0; film < films; ++film) {
        auto samples = movement_of(count, rate_hz);
        const auto noise = noise_of(1.5, count, static_cast<std::uint64_t>(film));
        for (std::size_t i = 0; i < count; ++i) samples[i] += noise[i];
        sum += residual_analysis(samples, rate_hz).noise;
      }
      CHECK_CLOSE(sum / films, 1.5, 1.5 * within);
    }
  }
}

TEST_CASE("the cut-off lies above the movement and falls as noise grows") {
  constexpr double rate_hz = 120;
  double before_hz = rate_hz;
  for (const double sigma : {0.01, 0.1, 1.0}) {
    auto samples = movement_of(600, rate_hz);
    const auto noise = noise_of(sigma, 600, 3);
    for (std::size_t i = 0; i < samples.size(); ++i) samples[i] += noise[i];
    const double cutoff_hz = residual_analysis(samples, rate_hz).cutoff_hz;
    CHECK(cutoff_hz > 2.3);
    CHECK(cutoff_hz < before_hz);
    before_hz = cutoff_hz;
  }
}

TEST_CASE("samples that say nothing of noise have a cut-off all the same") {
  const auto flat = residual_analysis(std::vector<double>(50, 417.0), 30);
  CHECK(flat.noise < 1e-9);
  CHECK(flat.cutoff_hz > 0);
  CHECK(flat.cutoff_hz <= 13.5);
  const auto few = residual_analysis(std::vector<double>(5, 1.0), 30);
  CHECK(few.noise == 0);
  CHECK(few.cutoff_hz == 13.5);
}

TEST_CASE("outliers are told by the median about them") {
  // By hand: about 9 the window 1 2 9 2 1 has median 2 and a median absolute deviation of 1.
  const std::vector<double> samples{1, 2, 1, 2, 9, 2, 1, 2, 1};
  std::vector<bool> only(9);
  only[4] = true;
  CHECK(outliers(samples, 2, 3, 0) == only);
  CHECK(outliers(samples, 2, 4.73, 0) == std::vector<bool>(9));  // 4.73 × 1.4826 > 7
  CHECK(outliers(samples, 2, 4.72, 0) == only);
  CHECK(outliers(samples, 2, 3, 7) == std::vector<bool>(9));
  CHECK(outliers({}, 2, 3, 0).empty());
}

TEST_CASE("the middle one, or the mean of the middle two") {
  CHECK(median({3, 1, 2}) == 2);
  CHECK(median({4, 1, 2, 3}) == 2.5);
  CHECK(median({}) == 0);
}

}  // namespace rangecheck::motion
