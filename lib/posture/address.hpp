// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "intake/submission.hpp"
#include "motion/still.hpp"
#include "posture/posture.hpp"

namespace rangecheck::posture {

/// One film's contribution to a still moment.
struct ViewEvidence {
  intake::View view = intake::View::face_on;
  intake::Estimator estimator = intake::Estimator::unknown;
  intake::ImageSize image;
  intake::SpaceSource space = intake::SpaceSource::one_camera;  ///< of the still's spatial points
  bool picture_is_drawn = false;  ///< the still's points are no evidence, only its spatial ones
  motion::Still still;
  std::optional<intake::ImagePoint> ball;
  std::optional<std::pair<intake::ImagePoint, intake::ImagePoint>> target_line;
  intake::CameraFacts camera;
};

/// The film's points in space carry their full weight, at address and later: there are enough of
/// them, and no picture beside them or their depth was measured. Others were guessed from the
/// picture and know next to nothing that it does not; they count a little, at address only.
bool space_counts(const ViewEvidence& view);

/// All that is known of one still moment.
struct Evidence {
  std::vector<ViewEvidence> views;  ///< at least one
  std::optional<Length> stature;
  std::optional<intake::FootLength> foot;
  bool same_swing = false;
};

/// The posture at address: maximum a posteriori by Levenberg–Marquardt over all joints, one camera
/// a view and the golfer's stature, with a robust loss on landmarks; covariance from the
/// Gauss–Newton Hessian, widened by the Birge ratio when the fit is poor. Findings name the source
/// that disagrees; one that `refuses` means that no grade may be built on it. An error when the
/// solver finds nothing at all (for example, fewer than six body landmarks in every view).
Result<Posture> estimate_address(const Evidence& evidence);

}  // namespace rangecheck::posture
