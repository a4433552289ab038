// SPDX-License-Identifier: MIT
#include "posture/checks.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "posture/sources.hpp"
#include "posture/space_fit.hpp"

namespace rangecheck::posture {
namespace {

/// A standardised residual this large is one in two thousand: the fact is named.
constexpr double surprising = 3.5;
/// Twice the logarithm of how much likelier the other view's name must be: e^10 to 1.
constexpr double much_likelier = 10;
/// Fit this much worse than landmark spreads allow is said; beyond the second no grade is built.
constexpr double poor_fit = 1.6;
constexpr double impossible_fit = 3.0;

const ViewEvidence& view_of(Source of_view, const Evidence& evidence) {
  return evidence.views[static_cast<std::size_t>(of_view % 10)];
}

/// What the film shows of the golfer: its points in the picture or, without one, in space.
bool is_of_film(Source s, const Evidence& evidence) {
  return s / 10 == 1 || (source::is_space(s) && view_of(s, evidence).picture_is_drawn);
}

Message name_of(Source s, const Evidence& evidence) {
  if (s == source::stature) return {"evidence.stature"};
  if (s == source::shoe) return {"evidence.shoe-size"};
  const auto& view = view_of(s, evidence);
  const Message film = intake::film_as_message(view.view);
  switch (s / 10) {
    case 1:
      return film;
    case 2:
      return view.picture_is_drawn ? film : Message{"evidence.space", {said("film", film)}};
    case 3:
      return {"evidence.ball", {said("film", film)}};
    case 4:
      return {"evidence.stick", {said("film", film)}};
    default:
      return {"evidence.camera", {said("film", film)}};
  }
}

intake::View other(intake::View view) {
  return view == intake::View::face_on ? intake::View::down_the_line : intake::View::face_on;
}

/// Cost of the best posture for one film alone, taken as a film of `view`.
double cost_as(const Evidence& evidence, std::size_t number, intake::View view,
               const std::vector<LandmarkId>& joints) {
  Evidence alone = evidence;
  alone.views = {evidence.views[number]};
  alone.views[0].view = view;
  // Facts about where the camera stood belong to the name that is in doubt.
  alone.views[0].target_line.reset();
  const Moment moment(alone, joints);
  const Eigen::VectorXd guess = moment.guess();
  return solve(moment.problem(guess), guess).cost;
}

/// Mean separation of hips, ankles and heels along the picture over the height from ankle to
/// shoulder: about 0.25 from the front, near 0 along the line.
std::optional<double> apparent_breadth(const ViewEvidence& view) {
  const auto& points = view.still.points;
  double breadth = 0, height = 0;
  int pairs = 0, heights = 0;
  for (const Joint joint : {Joint::hip, Joint::ankle, Joint::heel}) {
    const auto &a = points[lead(joint)], &b = points[trail(joint)];
    if (!a || !b) continue;
    breadth += std::abs(a->at.x_px - b->at.x_px);
    ++pairs;
  }
  for (const Side side : {Side::lead, Side::trail}) {
    const auto &top = points[{side, Joint::shoulder}], &bottom = points[{side, Joint::ankle}];
    if (!top || !bottom) continue;
    height += std::abs(top->at.y_px - bottom->at.y_px);
    ++heights;
  }
  if (pairs == 0 || heights == 0 || height <= 0) return std::nullopt;
  return breadth / pairs / (height / heights);
}

/// A film whose breadth is well within what its name promises needs no second look.
bool name_in_doubt(const ViewEvidence& view) {
  const auto breadth = apparent_breadth(view);
  if (!breadth) return true;
  return view.view == intake::View::face_on ? *breadth < 0.17 : *breadth > 0.11;
}

std::optional<Finding> wrong_name(const Moment& moment, std::size_t number) {
  const ViewEvidence& view = moment.evidence().views[number];
  if (!name_in_doubt(view)) return std::nullopt;
  const auto& joints = moment.unknowns().joints();
  const double as_named = cost_as(moment.evidence(), number, view.view, joints);
  const double as_other = cost_as(moment.evidence(), number, other(view.view), joints);
  if (as_named - as_other < much_likelier) return std::nullopt;
  const Message named = intake::view_as_message(view.view),
                likely = intake::view_as_message(other(view.view));
  return Finding{true,
                 intake::film_as_message(view.view),
                 {"finding.other-view", {said("named", named), said("likely", likely)}},
                 {"remedy.correct-view", {said("view", named)}}};
}

/// How far round the golfer the camera stands from where its view's name puts it, degrees.
double off_square_deg(intake::View view, const Camera& camera) {
  const Eigen::Vector3d to_golfer = nominal_axes(view) * (look_at - camera.position);
  return std::atan2(to_golfer.x(), to_golfer.z()) * 180 / std::numbers::pi;
}

std::optional<Finding> not_square(const Posture& posture) {
  const double off_deg = off_place_deg(posture.cameras);
  if (off_deg < clearly_off_place_deg) return std::nullopt;
  std::vector<Message> views, films;
  for (const auto& [view, camera] : posture.cameras) {
    views.push_back(intake::view_as_message(view));
    films.push_back(intake::film_as_message(view));
  }
  const Number rounded{off_deg, 0};
  return Finding{false,
                 {"evidence.listed", {{"films", films}}},
                 films.size() > 1
                     ? Message{"finding.cameras-off-square", {{"views", views}, {"off", rounded}}}
                     : Message{"finding.camera-off-square", {{"view", views}, {"off", rounded}}},
                 {"remedy.set-cameras-square"},
                 true};
}

Finding surprising_fact(const Agreement& each) {
  if (each.source.id == "evidence.stature")
    return {true, each.source, {"finding.stature"}, {"remedy.check-stature"}};
  return {true,
          each.source,
          {"finding.fact", {said("fact", each.source)}},
          {"remedy.check-fact", {said("fact", each.source)}}};
}

}  // namespace

std::vector<Agreement> agreement(const Evidence& evidence, const Problem& problem,
                                 const Eigen::VectorXd& state, const Eigen::MatrixXd& covariance) {
  std::map<Source, Agreement> by_source;
  Eigen::MatrixXd jacobian;
  for (const auto& factor : problem.factors()) {
    if (factor->source() == source::prior) continue;
    Agreement& of = by_source[factor->source()];
    Eigen::VectorXd residual(factor->size());
    factor->evaluate(state.data(), residual.data(), &jacobian);
    const auto at = factor->unknowns();
    const Eigen::VectorXi columns =
        Eigen::Map<const Eigen::VectorXi>(at.data(), static_cast<Eigen::Index>(at.size()));
    const Eigen::MatrixXd leverage = jacobian * covariance(columns, columns) * jacobian.transpose();
    of.chi_square += residual.squaredNorm();
    for (int i = 0; i < factor->size(); ++i) {
      const double free = std::max(1e-6, 1 - leverage(i, i));
      of.freedom += free;
      of.surprise = std::max(of.surprise, std::abs(residual[i]) / std::sqrt(free));
    }
  }
  std::vector<Agreement> out;
  for (auto& [number, of] : by_source) {
    of.source = name_of(number, evidence);
    of.is_film = is_of_film(number, evidence);
    out.push_back(of);
  }
  return out;
}

double birge_ratio(const std::vector<Agreement>& agreement) {
  double chi_square = 0, freedom = 0;
  for (const auto& each : agreement) {
    if (!each.is_film) continue;
    chi_square += each.chi_square;
    freedom += each.freedom;
  }
  return freedom > 0 ? std::sqrt(std::max(1.0, chi_square / freedom)) : 1;
}

double off_place_deg(const std::vector<std::pair<intake::View, Camera>>& cameras) {
  double off_deg = 0;
  for (const auto& [view, camera] : cameras) off_deg = off_square_deg(view, camera) - off_deg;
  return std::abs(off_deg);
}

std::vector<Finding> findings(const Moment& moment, const Posture& posture) {
  std::vector<Finding> out;
  for (std::size_t v = 0; v < moment.evidence().views.size(); ++v) {
    const ViewEvidence& view = moment.evidence().views[v];
    auto finding = view.picture_is_drawn ? wrong_space(view) : wrong_name(moment, v);
    if (finding) out.push_back(*std::move(finding));
  }
  if (auto finding = not_square(posture)) out.push_back(*finding);
  for (auto& finding : findings(posture.space_agreement)) out.push_back(std::move(finding));
  for (const auto& each : posture.agreement) {
    if (!each.is_film && each.surprise > surprising) out.push_back(surprising_fact(each));
  }
  if (posture.birge_ratio > poor_fit) {
    const bool refuses = posture.birge_ratio > impossible_fit;
    const auto worst = std::max_element(
        posture.agreement.begin(), posture.agreement.end(), [](const auto& a, const auto& b) {
          const auto ratio = [](const Agreement& x) {
            return x.is_film ? x.chi_square / std::max(1e-6, x.freedom) : 0;
          };
          return ratio(a) < ratio(b);
        });
    out.push_back({refuses,
                   worst->source,
                   {refuses ? "finding.not-one-golfer" : "finding.hardly-one-golfer",
                    {said("film", worst->source)}},
                   {"remedy.same-golfer"}});
  }
  return out;
}

}  // namespace rangecheck::posture
