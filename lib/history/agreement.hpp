// SPDX-License-Identifier: MIT
// How far two readings of the same things agree: the statistics alone, in whatever unit the numbers
// are. Pairs are taken as independent; who passes two of one student has to say so.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>

namespace rangecheck::history {

/// One thing, read twice.
struct Pair {
  double first = 0, second = 0;
};

struct Interval {
  double low = 0, high = 0;
};

/// Fewer pairs say nothing: below three a line through the differences has no residual.
inline constexpr std::size_t least_pairs = 3;

/// Bland & Altman, Lancet 327 (1986) 307–310, doi:10.1016/S0140-6736(86)90837-8. Differences are
/// second − first.
struct Differences {
  std::size_t pairs = 0;
  double bias = 0;  ///< their mean
  Interval bias_95;
  double sd = 0;    ///< with n − 1
  Interval limits;  ///< of agreement: bias ± 1.96 sd, where 95 % of differences lie
  /// Of each limit by itself, exact for normal differences by the noncentral t distribution
  /// (Carkeet, Optom Vis Sci 92 (2015) e71–e80, doi:10.1097/OPX.0000000000000513). The usual
  /// √(3/n) sd of 1986 is its large-sample form, and too narrow outward for few pairs.
  Interval lower_limit_95, upper_limit_95;
};
/// Nothing below `least_pairs`.
std::optional<Differences> differences_of(std::span<const Pair> pairs);

/// Whether differences change with size: their least-squares slope on the pair's mean (Bland &
/// Altman, Stat Methods Med Res 8 (1999) 135–160, section 3.2) and the two-sided p of its being 0,
/// which is also Pitman's and Morgan's test of equal spreads: a reader that scatters more shows
/// here too.
struct Trend {
  double slope = 0, p = 1;
};
/// Nothing below `least_pairs`, and where neither size nor differences vary.
std::optional<Trend> trend_of(std::span<const Pair> pairs);

/// Two-way analysis of variance without repetition: mean squares between targets, between judges
/// and of what is left, as Shrout & Fleiss call them (Psychol Bull 86 (1979) 420–428,
/// doi:10.1037/0033-2909.86.2.420).
struct MeanSquares {
  std::size_t targets = 0, judges = 0;
  double between_targets = 0, between_judges = 0, error = 0;
  double within_targets = 0;  ///< of the one-way table
};
/// `ratings` target by target, each with one rating a judge. Two targets and two judges at least
/// (asserted).
MeanSquares mean_squares_of(std::span<const double> ratings, std::size_t judges);
MeanSquares mean_squares_of(std::span<const Pair> pairs);

/// The intraclass correlation ICC(2,1): absolute agreement of single readings, targets and judges
/// both random (Shrout & Fleiss 1979), with its 95 % interval (there, and McGraw & Wong, Psychol
/// Methods 1 (1996) 30–46, table 7, case 2A). May be negative.
struct Icc {
  double value = 0;
  std::optional<Interval> interval_95;  ///< nothing where judges differ by nothing but a shift
};
/// Nothing where nothing varies at all.
std::optional<Icc> icc_2_1(const MeanSquares& squares);

/// Standard error of measurement of a single reading, √(error mean square), which does not hang on
/// how different the students are and leaves the bias out (Weir, J Strength Cond Res 19 (2005)
/// 231–240, doi:10.1519/15184.1).
double standard_error_of_measurement(const MeanSquares& squares);
/// The minimal detectable change at 95 %, 1.96 √2 SEM (Weir 2005). With two readings that is half
/// the width of the limits of agreement.
double least_detectable(double standard_error_of_measurement);

/// Agreement in words beyond chance: Cohen, Educ Psychol Meas 20 (1960) 37–46,
/// doi:10.1177/001316446002000104; large-sample interval by Fleiss, Cohen & Everitt, Psychol Bull
/// 72 (1969) 323–327, doi:10.1037/h0028106.
struct Kappa {
  double value = 0;
  double standard_error = 0;
};
/// `counts` row by row: how often the first said the row's word and the second the column's.
/// Nothing where there are no counts, and where both always say one and the same word.
std::optional<Kappa> cohen_kappa(std::span<const std::size_t> counts, std::size_t words);

}  // namespace rangecheck::history
