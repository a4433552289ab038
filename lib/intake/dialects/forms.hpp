// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "intake/dialects/form.hpp"

namespace rangecheck::intake {

extern const Form plain;
extern const Form joints19_bodies;
extern const Form depth_camera_bodies;
extern const Form depth_camera_points;
extern const Form points_by_frame;
extern const Form points_17_in_space;
extern const Form people_per_frame;
extern const Form coco_results;
extern const Form annotated_pictures;
extern const Form joints_lists;
extern const Form flat_keypoints;
extern const Form points_33;
extern const Form keypoint_objects;
extern const Form columns_of_points;
extern const Form typed_landmarks;
extern const Form instances;
extern const Form points_by_track;
extern const Form tracked_landmarks;
extern const Form detection_rows;
extern const Form landmark_columns;
extern const Form joints_by_key;
extern const Form points_by_name;

/// All that are known, in the order in which a document is tried on them: a form whose marks are
/// its own before one that takes what is left.
std::span<const Form* const> all_forms();

}  // namespace rangecheck::intake
