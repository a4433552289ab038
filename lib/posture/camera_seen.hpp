// SPDX-License-Identifier: MIT
#pragma once

#include "posture/moment.hpp"

namespace rangecheck::posture {

/// Where the camera of the moment's film `number` stood. `covariance` is of the whole state, at
/// `state`.
CameraSeen camera_seen(const Moment& moment, std::size_t number, const Eigen::VectorXd& state,
                       const Eigen::MatrixXd& covariance);

}  // namespace rangecheck::posture
