// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "posture/body.hpp"
#include "posture/checks.hpp"
#include "posture/formulas.hpp"
#include "posture/landmark_error.hpp"
#include "posture/priors.hpp"
#include "posture/sources.hpp"

namespace rangecheck::posture {
namespace {

/// A picture to imagine a further film in: an upright phone's.
constexpr intake::ImageSize usual_image{1080, 1920};
/// How sure a usual estimator would be of its points there.
constexpr double usual_confidence = 0.9;
constexpr intake::FootLength usual_shoe{Length::metres(0.26), Length::millimetres(4)};

bool has_view(const Evidence& evidence, intake::View view) {
  for (const auto& each : evidence.views) {
    if (each.view == view) return true;
  }
  return false;
}

/// How many films have a picture in which something could be marked.
int pictures_of(const Evidence& evidence) {
  return static_cast<int>(std::count_if(evidence.views.begin(), evidence.views.end(),
                                        [](const auto& view) { return !view.picture_is_drawn; }));
}

Eigen::Vector2d pixel(const std::array<double, 10>& point_and_camera,
                      const Eigen::Matrix3d& nominal) {
  const auto px = projected(point_and_camera[3],
                            in_camera(point_and_camera, 3, nominal, point_at(point_and_camera, 0)));
  return {px[0], px[1]};
}

std::array<double, 10> gathered(const Eigen::VectorXd& state, const std::array<int, 10>& at) {
  std::array<double, 10> out;
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = state[at[i]];
  return out;
}

void imagine_film_of_address(Problem& problem, const Moment& moment, Eigen::VectorXd& state,
                             intake::View view) {
  const double take = moment.evidence().same_swing ? 0 : prior::take_to_take_sigma_m;
  const ImaginedFilm film(problem, state, view);
  for (const LandmarkId id : body_joints()) film.show(id, moment.unknowns().joint(id), take);
}

/// A stick of one metre in front of the toes, marked in every film. Its unknowns, one set a film as
/// for real ones, are the last of `state`.
void imagine_stick(Problem& problem, const Moment& moment, Eigen::VectorXd& state) {
  const auto& views = moment.evidence().views;
  int stick = static_cast<int>(state.size()) - Unknowns::per_stick * pictures_of(moment.evidence());
  for (std::size_t v = 0; v < views.size(); ++v) {
    if (views[v].picture_is_drawn) continue;
    state.segment<Unknowns::per_stick>(stick) << -0.5, 0.5, 0.45, 0.45;
    const auto at = runs<4, 7>({stick, *moment.view(v).camera});
    std::array<double, 11> values;
    for (std::size_t i = 0; i < values.size(); ++i) values[i] = state[at[i]];
    // Clicked where the film would show it: what StickSeen predicts, its residuals at nought.
    const StickSeen unclicked{nominal_axes(views[v].view), {0, 0}, {0, 0}, 1};
    const auto px = unclicked(values);
    problem.add<4, 11>(
        source::stick(v), at,
        StickSeen{unclicked.nominal, {px[0], px[1]}, {px[2], px[3]}, prior::clicked_sigma_px});
    problem.add<1, 4>(source::stick(v), runs<4>({stick}),
                      StickAlongTarget{prior::stick_direction_sigma_rad});
    stick += Unknowns::per_stick;
  }
}

int further_unknowns(const Evidence& evidence, Observation observation) {
  switch (observation) {
    case Observation::face_on_film:
    case Observation::down_the_line_film:
      return Unknowns::per_camera;
    case Observation::target_stick:
      return Unknowns::per_stick * pictures_of(evidence);
    default:
      return 0;
  }
}

}  // namespace

ImaginedFilm::ImaginedFilm(Problem& problem, Eigen::VectorXd& state, intake::View view)
    : problem_(problem),
      state_(state),
      view_(view),
      camera_(static_cast<int>(state.size()) - Unknowns::per_camera) {
  const double distance = std::exp(prior::log_camera_distance_m.mean);
  state[camera_] = prior::log_focal_over_long_side.mean + std::log(usual_image.height_px);
  Point position = look_at - distance * nominal_axes(view).row(2).transpose();
  position.y() = prior::camera_height_m.mean;
  state.segment<3>(camera_ + 1) = position;
  state.segment<3>(camera_ + 4).setZero();
  add_camera(problem, camera_, view, usual_image, {}, 0);
  px_per_metre_ = std::exp(state[camera_]) / distance;
}

void ImaginedFilm::show(LandmarkId id, int joint, double more_sigma_m) const {
  const auto at = runs<3, 7>({joint, camera_});
  const Eigen::Matrix3d nominal = nominal_axes(view_);
  const LandmarkError error =
      landmark_error(intake::Estimator::unknown, view_, id, usual_confidence);
  const double more2 = more_sigma_m * more_sigma_m;
  problem_.add<2, 10>(
      source::film(0), at,
      Seen{nominal, pixel(gathered(state_, at), nominal),
           px_per_metre_ * (error.sigma_m.array().square() + more2).sqrt().matrix()});
}

std::vector<Observation> missing_observations(const Evidence& evidence) {
  std::vector<Observation> out;
  // Without a picture there is nothing to mark and no lens.
  bool stick = pictures_of(evidence) == 0, focal = true;
  for (const auto& view : evidence.views) {
    if (view.picture_is_drawn) continue;
    stick = stick || view.target_line.has_value();
    focal = focal && view.camera.focal_px.has_value();
  }
  if (!has_view(evidence, intake::View::face_on)) out.push_back(Observation::face_on_film);
  if (!has_view(evidence, intake::View::down_the_line)) {
    out.push_back(Observation::down_the_line_film);
  }
  if (!stick) out.push_back(Observation::target_stick);
  if (!evidence.stature) out.push_back(Observation::stature);
  if (!evidence.foot) out.push_back(Observation::shoe_size);
  if (!focal) out.push_back(Observation::focal_length);
  return out;
}

Eigen::MatrixXd covariance_with(const Moment& moment, const Eigen::MatrixXd& information,
                                const Eigen::VectorXd& state, Observation observation) {
  const Eigen::Index size = state.size() + further_unknowns(moment.evidence(), observation);
  Eigen::VectorXd extended = Eigen::VectorXd::Zero(size);
  extended.head(state.size()) = state;
  Problem problem(static_cast<int>(size));
  switch (observation) {
    case Observation::face_on_film:
      imagine_film_of_address(problem, moment, extended, intake::View::face_on);
      break;
    case Observation::down_the_line_film:
      imagine_film_of_address(problem, moment, extended, intake::View::down_the_line);
      break;
    case Observation::target_stick:
      imagine_stick(problem, moment, extended);
      break;
    case Observation::stature:
      add_stature(problem, moment.unknowns(), Length::metres(state[moment.unknowns().stature()]));
      break;
    case Observation::shoe_size:
      add_foot(problem, moment.unknowns(), usual_shoe);
      break;
    case Observation::focal_length:
      for (std::size_t v = 0; v < moment.evidence().views.size(); ++v) {
        const auto camera = moment.view(v).camera;
        if (!camera) continue;
        problem.add<1, 1>(source::camera(v), std::array{*camera},
                          Near{state[*camera], prior::stated_focal_relative_sigma});
      }
      break;
  }
  Eigen::MatrixXd h = problem.hessian(extended, [](Source) { return true; });
  h.topLeftCorner(state.size(), state.size()) += information;
  return inverse(h).topLeftCorner(state.size(), state.size());
}

}  // namespace rangecheck::posture
