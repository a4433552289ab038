// SPDX-License-Identifier: MIT
// How good a film has to be, and what to tell who films: profiles/filming.yaml. Built into the
// program; a filming.yaml in the profiles folder takes its place.
#pragma once

#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "grade/band.hpp"
#include "intake/submission.hpp"
#include "motion/film_facts.hpp"
#include "posture/posture.hpp"

namespace rangecheck::grade {

/// What a film is asked, with its answers for one view.
struct Criterion {
  std::string id, title;
  std::string unit;                  ///< symbol in which `good` was written
  Band good, fair;                   ///< `good` lies in `fair`; outside `fair` is poor
  std::string when_fair, when_poor;  ///< what is wrong, in the coach's words; may be empty
  std::string advice;                ///< how to film it better
};

/// Criteria by view, in the order of the file: the most important first.
struct Filming {
  double confidence = 0.9;  ///< conformance probability that a verdict needs
  /// Heights of the golfer: hands that move less from picture to picture are caught by any rate.
  double slow_hands = 0;
  std::array<std::vector<Criterion>, 2> of_view;
  const std::vector<Criterion>& of(intake::View view) const {
    return of_view[static_cast<std::size_t>(view)];
  }
};

/// The one built in, and its text.
const Filming& shipped_filming();
std::string_view shipped_filming_text();

/// One file. Unknown keys and criteria (with the nearest known), bands of the wrong dimension, a
/// `fair` that does not hold `good`: an error with file and line.
Result<Filming> read_filming(const std::string& text, const std::string& file);
/// The same with every fault, in the order found; there is something to use only without any.
Filming read_filming(const std::string& text, const std::string& file, std::vector<Error>& faults);

/// That of `folder`/filming.yaml, or the shipped one where there is none.
Result<Filming> load_filming(const std::filesystem::path& folder);

enum class FilmVerdict { good, fair, poor, not_known };
std::string_view name_of(FilmVerdict verdict);

/// How a film does in one criterion.
struct FilmJudgement {
  Criterion criterion;
  Dimension dimension = Dimension::ratio;
  bool a_second = false;  ///< the value counts pictures a second
  bool speaks = true;     ///< the value says something to who filmed
  std::optional<double> value_si;
  double standard_uncertainty_si = 0;
  FilmVerdict verdict = FilmVerdict::not_known;
  Message reason;  ///< why it is not known
  Message detail;  ///< what else there is to say, for people; may say nothing
};

/// How good one film is. Everything that the verdicts rest on is kept for reports.
struct FilmQuality {
  intake::View view = intake::View::face_on;
  std::vector<FilmJudgement> judged;  ///< in the order of filming.yaml
  motion::FilmFacts facts;
  std::optional<posture::CameraSeen> camera;

  /// The worst of them; not known when none is known.
  FilmVerdict verdict() const;
};

/// Good, or poor, is what a value is with the confidence that `filming` asks for. Surely not good,
/// but not surely poor, is fair. What is none of these with confidence is not known: a camera that
/// the film hardly shows is never called badly placed. What matters to a swing only is not judged
/// in a film without one.
FilmQuality judge_film(const Filming& filming, intake::View view, motion::FilmFacts facts,
                       std::optional<posture::CameraSeen> camera);

}  // namespace rangecheck::grade
