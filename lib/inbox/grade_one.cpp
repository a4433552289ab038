// SPDX-License-Identifier: MIT
#include <algorithm>

#include "grade/grade.hpp"
#include "inbox/figures.hpp"
#include "inbox/filmed.hpp"
#include "inbox/inbox.hpp"
#include "inbox/swing_seen.hpp"
#include "measure/measurement.hpp"
#include "posture/position.hpp"

namespace rangecheck::inbox {
namespace {

/// The finding on which no grade may be built, as the error it is.
std::optional<Error> refusal(const std::vector<posture::Finding>& findings) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [](const auto& finding) { return finding.refuses; });
  if (found == findings.end()) return std::nullopt;
  Error error{Fault::disagreement, in_english(found->text), {}, in_english(found->remedy)};
  error.where.key = in_english(found->source);
  return error;
}

/// How good each film is. `cameras` are those that posture saw, each with its view.
std::vector<grade::FilmQuality> judge_films(std::vector<Filmed>& films,
                                            const grade::Filming& filming,
                                            const std::vector<posture::CameraSeen>& cameras) {
  std::vector<grade::FilmQuality> out;
  for (auto& film : films) {
    const auto camera = std::ranges::find(cameras, film.address.view, &posture::CameraSeen::view);
    out.push_back(
        grade::judge_film(filming, film.address.view, std::move(film.facts),
                          camera == cameras.end() ? std::nullopt : std::optional(*camera)));
  }
  return out;
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
                             .same_swing = false};
  std::vector<Message> notes;
  std::vector<Filmed> films;
  for (const auto& view : submission.views) {
    auto film = read_film(view, submission.swing);
    if (!film) return film.error();
    evidence.views.push_back(film->address);
    notes.insert(notes.end(), film->notes.begin(), film->notes.end());
    films.push_back(*std::move(film));
  }
  const Swings swings = lay_side_by_side(films, submission.same_swing);
  evidence.same_swing = swings.one_swing;
  notes.insert(notes.end(), swings.notes.begin(), swings.notes.end());
  auto address = posture::estimate_address_to_carry(evidence);
  if (!address) return address.error();
  auto& posture = address->posture;
  if (auto refused = refusal(posture.findings)) return *refused;

  std::vector<const measure::Rule*> own;
  for (const auto& each : profiles.own_measures) own.push_back(&each->rule());
  auto measured = measure::measure_all(posture, Position::address, own);
  auto swing = see_swing(films, swings, *address->carried, own);
  measured.insert(measured.end(), std::make_move_iterator(swing.measured.begin()),
                  std::make_move_iterator(swing.measured.end()));
  auto grade = grade::grade(*fitted, measured, submission, swing.not_found);
  return report::Graded{
      .submission = submission.id,
      .student = submission.student,
      .name = submission.golfer.name,
      .received = submission.received,
      .club = submission.club,
      .swing = submission.swing,
      .language = submission.golfer.language,
      .measured = std::move(measured),
      .own_measures = profiles.own_measures,
      .positions = std::move(swing.positions),
      .figures =
          figures_of(films, swings, submission.golfer.handedness == intake::Handedness::left),
      .grade = std::move(grade),
      .films = judge_films(films, profiles.filming, posture.cameras_seen),
      .findings = std::move(posture.findings),
      .notes = std::move(notes),
      .agreement = std::move(posture.agreement),
      .space_agreement = std::move(posture.space_agreement),
      .birge_ratio = posture.birge_ratio,
      .version = std::string(version())};
}

}  // namespace rangecheck::inbox
