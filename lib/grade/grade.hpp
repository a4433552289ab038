// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "grade/profile.hpp"
#include "intake/submission.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::grade {

enum class Verdict { inside, low, high, outside_words, unsure, not_seen, switched_off };
std::string_view name_of(Verdict verdict);

/// Probabilities that the true value lies below, inside and above the band, for N(y, u²).
/// JCGM 106:2012, 7.2–7.4.
struct Conformance {
  double below = 0, inside = 1, above = 0;
};
Conformance conformance(double y, double u, const Band& band);

/// `inside` if its probability ≥ confidence, `low`/`high` if the probability beyond that limit is,
/// else `unsure`.
Verdict verdict(const Conformance& probability, double confidence);

/// Mean and standard deviation of the trapezoid score (1 inside the band, linearly to 0 over
/// `fade_si` outside) under N(y, u²), in closed form.
struct Score {
  double expected = 0;
  double standard_deviation = 0;
};
Score trapezoid_score(double y, double u, const Band& band, double fade_si);

struct CheckResult {
  Check check;
  Verdict verdict = Verdict::not_seen;
  std::optional<double> value_si;  ///< numeric subjects that were seen
  double standard_uncertainty_si = 0;
  std::string word;  ///< observed subjects, as written
  Message note;      ///< who gave the value, when no film did
  Conformance probability;
  Score score;             ///< 0..1; meaningless when not seen or switched off
  Message reason, remedy;  ///< when not seen or switched off
  std::string category;    ///< "inside", "over", "outside", where the rule has any
};

/// How one position went, on its own.
struct PositionGrade {
  std::optional<Position> position;  ///< nothing: times, readings and observations
  std::optional<double> percent;     ///< as of Grade, over this position's checks
  double percent_uncertainty = 0;
  double seen_share = 0;
};

/// A position that the profile has checks for and the films do not show.
struct PositionNotFound {
  Position position;
  Message reason, remedy;
};

struct Grade {
  std::string profile_id;
  Written profile_title;
  std::vector<CheckResult> results;      ///< by position, then ground up
  std::vector<PositionGrade> positions;  ///< those that were found, in order, then the whole swing
  std::vector<PositionNotFound> not_found;  ///< their checks are neither seen nor missed
  std::optional<double> percent;            ///< 0..100; nothing when too little was seen
  double percent_uncertainty = 0;
  double seen_share = 0;             ///< of the weight
  std::vector<std::size_t> work_on;  ///< indices into results: main first, at most
                                     ///< three; empty without a grade
  std::vector<Change> changes;       ///< for body and limits, of checks that the films could show
  std::vector<Message> notes;        ///< about what a person noted
};

/// Holds measured, read and observed facts against the fitted profile.
/// A measure that no film shows is taken from a number that a person wrote under `observed:`, if
/// any.
/// The grade is the weighted mean over what was seen, if that is the least share of the weight that
/// the profile asks for. Each position has a grade of its own by the same rule. A later position of
/// which too little is seen for one is left out of the whole, so that a film that goes on past
/// address never takes away a grade that address alone would earn. Checks of a position in
/// `not_found`, and times that need it, are not_seen with its reason and count neither as seen nor
/// as missed, unless a person wrote the number; Grade::not_found lists those that the profile has
/// checks for. A later position of which nothing at all was measured is treated alike.
/// Work on first: among checks outside with confidence, severity × weight × (1 + all weight that it
/// drives, directly or through others, also at other positions, and that is outside too). Severity
/// is the distance beyond the band in fades, at most 2; 1 for words. A check that is surely inside
/// hands nothing on along the chain. Before a check comes the most urgent outside check that drives
/// it. Of two that are equally urgent the earlier in the swing comes first, then the lower.
Grade grade(const Fitted& fitted, std::span<const measure::Measurement> measured,
            const intake::Submission& submission, std::span<const PositionNotFound> not_found = {});

}  // namespace rangecheck::grade
