// SPDX-License-Identifier: MIT
// What the writers of dialects share.
#pragma once

#include <functional>

#include "generator/dialects/dialects.hpp"
#include "generator/written.hpp"

namespace rangecheck::samples {

/// To a hundredth of a pixel; to a tenth of a millimetre; scores to three digits.
inline double px(double value_px) { return rounded(value_px, 2); }
inline double metres(double value_m) { return rounded(value_m, 4); }
/// Of a point that was not seen a low one, as of estimators that always guess.
double score_of(const ScenePoint& point);

/// From the middle of the person's hips, camera axes.
Eigen::Vector3d from_hips(const ScenePerson& person, const ScenePoint& point);

/// [write(person), …] in one frame.
Json people_of(const SceneFrame& frame, const std::function<Json(const ScenePerson&)>& write);
/// [write(frame), …].
Json frames_of(const Scene& scene, const std::function<Json(const SceneFrame&)>& write);

std::vector<NamedText> one_file(const Json& document);
/// A line for each entry of the list.
std::vector<NamedText> one_line_each(const Json& list);
/// A file for each frame: frame_0.json, frame_1.json, …, by the camera's numbers.
std::vector<NamedText> file_a_frame(const Scene& scene,
                                    const std::function<Json(const SceneFrame&)>& write);

}  // namespace rangecheck::samples
