// SPDX-License-Identifier: MIT
#include "grade/model.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "measure/measurement.hpp"
#include "motion/filter.hpp"

namespace rangecheck::grade {
namespace {

/// What is known of one golfer.
struct Golfer {
  std::vector<double> values;
  double squares = 0;  ///< of the standard uncertainties
};

/// A round step of the unit, a fiftieth of the band or so: 1, 2 or 5 of a power of ten.
double round_step(double width) {
  const double power = std::pow(10, std::floor(std::log10(width / 50)));
  const double lead = width / 50 / power;
  return power * (lead < 2 ? 1 : lead < 5 ? 2 : 5);
}

Band rounded_outward(Band band, double step) {
  if (band.lower_si) band.lower_si = std::floor(*band.lower_si / step + 1e-9) * step;
  if (band.upper_si) band.upper_si = std::ceil(*band.upper_si / step - 1e-9) * step;
  return band;
}

Band interval(const Sample& sample, double factor, const Band& like) {
  Band out;
  if (like.lower_si) out.lower_si = sample.middle - factor * sample.spread;
  if (like.upper_si) out.upper_si = sample.middle + factor * sample.spread;
  return out;
}

bool is_magnitude(const Check& check) {
  const auto* rule = measure::find_rule(check.rule);
  return check.subject == Subject::measured && rule && rule->magnitude;
}

/// The band in whole steps of its unit.
Band finished(Band band, double spread_si, const Check& check) {
  const double unit_si = find_unit(check.unit)->si_per_unit;
  if (is_magnitude(check) && band.lower_si && band.upper_si && *band.lower_si <= 0)
    band.lower_si.reset();
  return rounded_outward(band, round_step(6 * spread_si / unit_si) * unit_si);
}

}  // namespace

ModelBand fit_band(const Check& check, std::span<const ModelValue> values, Factors& factors) {
  std::map<std::string, Golfer> golfers;
  for (const auto& value : values) {
    if (value.check != check.id) continue;
    auto& golfer = golfers[value.student];
    golfer.values.push_back(value.value_si);
    golfer.squares += value.standard_uncertainty_si * value.standard_uncertainty_si;
  }
  ModelBand out;
  out.golfers = golfers.size();
  std::vector<double> sample;
  double squares = 0;
  for (const auto& [student, golfer] : golfers) {
    sample.push_back(motion::median(golfer.values));
    squares += golfer.squares / static_cast<double>(golfer.values.size());
  }
  if (out.golfers < fewest_golfers) return out;
  out.u_si = std::sqrt(squares / static_cast<double>(out.golfers));
  out.robust = robust_sample(sample);
  out.plain = plain_sample(sample);
  if (!(out.robust.spread > 0)) return out;
  const Sides sides = check.band.lower_si && check.band.upper_si ? Sides::two : Sides::one;
  out.factor = factors.robust(out.golfers, sides);
  out.plain_factor = factors.plain(out.golfers, sides);
  out.band = finished(interval(out.robust, out.factor, check.band), out.robust.spread, check);
  out.plain_band =
      finished(interval(out.plain, out.plain_factor, check.band), out.robust.spread, check);
  return out;
}

}  // namespace rangecheck::grade
