// SPDX-License-Identifier: MIT
#include <algorithm>

#include "grade/grade.hpp"
#include "inbox/inbox.hpp"
#include "measure/measurement.hpp"
#include "motion/still.hpp"
#include "pose/golfer.hpp"
#include "posture/address.hpp"

namespace rangecheck::inbox {
namespace {

// What phones film at unless told otherwise; common practice, no source. It only sets how many
// frames a still stretch needs.
constexpr double usual_frame_rate_hz = 30;

/// The evidence of one film; what is worth telling about it is added to `notes`.
Result<posture::ViewEvidence> evidence_of(const intake::FilmedView& view,
                                          std::vector<std::string>& notes) {
  const std::string film(intake::name_of(view.view));
  const auto in_film = [&film](Error error) {
    if (error.where.file.empty()) error.where.file = film;
    return error;
  };
  auto track = pose::follow_golfer(view);
  if (!track) return in_film(track.error());
  const auto rate = view.frame_rate_hz ? view.frame_rate_hz : view.film.frame_rate_hz;
  auto still = motion::still_address(*track, rate.value_or(usual_frame_rate_hz));
  if (!still) return in_film(still.error());
  for (const auto* source : {&track->notes, &still->notes})
    for (const auto& note : *source) notes.push_back(film + " film: " + note);
  return posture::ViewEvidence{.view = view.view,
                               .estimator = view.film.estimator,
                               .image = view.film.image.value_or(intake::ImageSize{}),
                               .still = std::move(*still),
                               .ball = view.ball,
                               .target_line = view.target_line,
                               .camera = view.camera};
}

/// The finding on which no grade may be built, as the error it is.
std::optional<Error> refusal(const std::vector<posture::Finding>& findings) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [](const auto& finding) { return finding.refuses; });
  if (found == findings.end()) return std::nullopt;
  Error error{Fault::disagreement, found->text, {}, found->remedy};
  error.where.key = found->source;
  return error;
}

}  // namespace

Result<report::Graded> grade_one(const intake::Submission& submission,
                                 const grade::ProfileSet& profiles) {
  // Profile first: it costs nothing, and without one the films need not be looked at.
  const auto profile =
      grade::choose_profile(profiles, submission.club, submission.swing, submission.golfer.style);
  if (!profile) return profile.error();
  const auto fitted = grade::fit_to_student(**profile, profiles, submission.golfer);
  if (!fitted) return fitted.error();

  posture::Evidence evidence{.views = {},
                             .stature = submission.golfer.stature,
                             .foot = submission.golfer.foot,
                             .same_swing = submission.same_swing};
  std::vector<std::string> notes;
  for (const auto& view : submission.views) {
    auto from_view = evidence_of(view, notes);
    if (!from_view) return from_view.error();
    evidence.views.push_back(std::move(*from_view));
  }
  auto posture = posture::estimate_address(evidence);
  if (!posture) return posture.error();
  if (auto refused = refusal(posture->findings)) return *refused;

  auto measured = measure::measure_all(*posture);
  auto grade = grade::grade(*fitted, measured, submission);
  return report::Graded{.submission = submission.id,
                        .student = submission.student,
                        .name = submission.golfer.name,
                        .received = submission.received,
                        .club = submission.club,
                        .swing = submission.swing,
                        .measured = std::move(measured),
                        .positions = {},
                        .grade = std::move(grade),
                        .findings = std::move(posture->findings),
                        .notes = std::move(notes),
                        .agreement = std::move(posture->agreement),
                        .birge_ratio = posture->birge_ratio,
                        .version = std::string(version())};
}

}  // namespace rangecheck::inbox
