// SPDX-License-Identifier: MIT
#include "intake/dialects/forms.hpp"

namespace rangecheck::intake {
namespace {

constexpr const Form* forms[] = {
    &plain,  // the only one that says what it is
    &joints19_bodies,
    &depth_camera_bodies,
    &depth_camera_points,
    &points_by_frame,
    &points_17_in_space,
    &keypoint_objects,
    &columns_of_points,
    &instances,
    &points_by_track,
    &tracked_landmarks,
    &detection_rows,
    &landmark_columns,
    &typed_landmarks,  // its lists are 33 points too
    &points_33,
    &joints_by_key,   // before the next, which takes its joints for points with names
    &points_by_name,  // an object of points under joints' names, wherever it is
    &people_per_frame,
    &coco_results,
    &annotated_pictures,
    &joints_lists,
    &flat_keypoints,
};

}  // namespace

std::span<const Form* const> all_forms() { return forms; }

}  // namespace rangecheck::intake
