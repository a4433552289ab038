// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "posture/address.hpp"
#include "posture/formulas.hpp"
#include "posture/problem.hpp"
#include "posture/unknowns.hpp"

namespace rangecheck::posture {

/// Where one view's own unknowns sit.
struct ViewUnknowns {
  std::optional<int> camera;      ///< of a film with a picture
  std::optional<int> spatial;     ///< frame of its points in space
  std::optional<int> space_pull;  ///< share by which those are drawn together
  std::optional<int> stick;
  std::optional<int> pull;
};

/// Reserves the view's unknowns.
ViewUnknowns reserve(Unknowns& unknowns, const ViewEvidence& view);

/// First guess of the view's camera, from how large and where the landmarks are in the picture if
/// the golfer stood as prior knowledge says. Writes the view's unknowns and moves the joints that
/// the film shows into its lines of sight.
void guess(const ViewEvidence& view, const ViewUnknowns& at, const Unknowns& unknowns,
           Eigen::VectorXd& state);

/// Every piece of evidence that the view gives. `state` sets the size of a metre in pixels at each
/// joint; it is held while solving, so that no solution can buy agreement by shrinking the picture.
void add_view(Problem& problem, const Unknowns& unknowns, const ViewEvidence& view,
              const ViewUnknowns& at, std::size_t number, bool several_takes,
              const Eigen::VectorXd& state);

/// Prior knowledge and stated facts of a camera of `view` alone.
void add_camera(Problem& problem, int camera, intake::View view, intake::ImageSize image,
                const intake::CameraFacts& facts, std::size_t number);

/// A point of the picture against its centre, pixels.
Eigen::Vector2d from_centre(intake::ImagePoint at, intake::ImageSize image);

/// Pixels that a metre takes in the picture at the joint whose unknowns begin at `joint`; `camera`
/// says where those of the view's camera do.
double px_per_metre(int camera, intake::View view, int joint, const Eigen::VectorXd& state);

/// How the film shows a joint at address, with its spread, apart from any pull; the film must show
/// it.
struct ShownAtAddress {
  Seen seen;
  Eigen::Vector2d bias_sigma_px;  ///< the part of the spread that stays for the whole film
};
ShownAtAddress shown_at_address(const ViewEvidence& view, const ViewUnknowns& at, LandmarkId id,
                                int joint, bool several_takes, const Eigen::VectorXd& state);

/// The camera in the state vector, for people and pictures.
Camera camera_of(const ViewEvidence& view, int camera, const Eigen::VectorXd& state);

}  // namespace rangecheck::posture
