// SPDX-License-Identifier: MIT
#include "grade/filming.hpp"

#include <algorithm>

#include "grade/filming_kinds.hpp"
#include "grade/grade.hpp"

namespace rangecheck::grade {
namespace {

FilmVerdict verdict_of(const Answer& answer, const Criterion& criterion, double confidence) {
  const double good = conformance(answer.value, answer.u, criterion.good).inside;
  const double not_poor = conformance(answer.value, answer.u, criterion.fair).inside;
  if (1 - not_poor >= confidence) return FilmVerdict::poor;
  if (good >= confidence) return FilmVerdict::good;
  if (1 - good >= confidence) return FilmVerdict::fair;
  return FilmVerdict::not_known;
}

FilmJudgement judge(const Criterion& criterion, const Filming& filming,
                    const motion::FilmFacts& facts,
                    const std::optional<posture::CameraSeen>& camera) {
  const FilmingKind& kind = *find_filming_kind(criterion.id);
  FilmJudgement out{.criterion = criterion,
                    .dimension = kind.dimension,
                    .a_second = kind.a_second,
                    .speaks = kind.speaks,
                    .value_si = {},
                    .reason = {},
                    .detail = {}};
  auto answer = kind.answer(facts, camera);
  if (answer) {
    out.value_si = answer->value;
    out.standard_uncertainty_si = answer->u;
    out.detail = std::move(answer->detail);
  }
  if (kind.of_swing && !facts.shows_swing) {
    out.reason = {"reason.no-swing-in-it"};
    out.value_si.reset();
    out.detail = {};
  } else if (!answer) {
    out.reason = {std::string(kind.absent)};
  } else {
    out.verdict = verdict_of(*answer, criterion, filming.confidence);
    if (out.verdict == FilmVerdict::not_known) out.reason = {"reason.not-sharply"};
    if (kind.a_second && facts.hands_step && *facts.hands_step < filming.slow_hands)
      out.verdict = FilmVerdict::good;
    if (!answer->may_be_more.empty() && out.verdict != FilmVerdict::good) {
      out.verdict = FilmVerdict::not_known;
      out.reason = {std::string(answer->may_be_more)};
    }
  }
  return out;
}

}  // namespace

std::string_view name_of(FilmVerdict verdict) {
  switch (verdict) {
    case FilmVerdict::good:
      return "good";
    case FilmVerdict::fair:
      return "fair";
    case FilmVerdict::poor:
      return "poor";
    case FilmVerdict::not_known:
      return "not known";
  }
  return "";
}

FilmVerdict FilmQuality::verdict() const {
  for (const auto verdict : {FilmVerdict::poor, FilmVerdict::fair, FilmVerdict::good})
    if (std::ranges::find(judged, verdict, &FilmJudgement::verdict) != judged.end()) return verdict;
  return FilmVerdict::not_known;
}

FilmQuality judge_film(const Filming& filming, intake::View view, motion::FilmFacts facts,
                       std::optional<posture::CameraSeen> camera) {
  FilmQuality out{.view = view, .judged = {}, .facts = std::move(facts), .camera = camera};
  for (const auto& criterion : filming.of(view))
    out.judged.push_back(judge(criterion, filming, out.facts, out.camera));
  return out;
}

}  // namespace rangecheck::grade
