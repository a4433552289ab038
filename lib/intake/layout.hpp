// SPDX-License-Identifier: MIT
// Which number in an estimator's list is which joint: data, in YAML, not code. The tool ships its
// own under profiles/layouts (they are built into the program too), and a coach adds to them or
// replaces one by a file in the same place of the profiles folder:
//
//   layout: halpe-26                 # kebab-case, unique; one that is known already is replaced
//   title: 26 points with feet, sides alternating
//   source: where the order is written down
//   points: [nose, left_eye, …]      # in order; unused for one without use, unused x 68 for many
//   hands: { left: 94, right: 115 }  # optional: index of the first of 21 points, wrist first;
//   these
//                                    # are unused in points, and the body's own wrist is preferred
//   least-score: 0.1                 # optional: below this the estimator has not seen the point
//   estimator: points-33             # optional: whose errors have been calibrated
//
// Names are anatomical, as in the plain form: left_ or right_ with a paired joint, or a central
// joint.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "base/skeleton.hpp"
#include "intake/film.hpp"

namespace rangecheck::intake {

/// What an index stands for, of a right-handed golfer, whose left is the lead side; empty for
/// points that we have no use for.
using LayoutPoint = std::optional<LandmarkId>;

struct Layout {
  std::string name, title, source;
  std::vector<LayoutPoint> points;
  double least_score = 0;
  Estimator estimator = Estimator::unknown;
  std::string origin;  ///< file it was read from; "built in" for a shipped one

  std::size_t size() const { return points.size(); }
};

/// All layouts that are known, shipped and added.
class LayoutSet {
 public:
  const Layout* find(std::string_view name) const;
  std::vector<const Layout*> of_size(std::size_t points) const;
  std::span<const Layout> all() const { return layouts_; }
  /// Replaces one of the same name.
  void add(Layout layout);

 private:
  std::vector<Layout> layouts_;  ///< by name
};

/// Those built in. Read once.
const LayoutSet& shipped_layouts();

/// One layout file, checked: an unknown key or joint (with the nearest known one), a joint twice, a
/// left without its right, hands that do not fit, fewer than 6 joints: an error with file and line.
Result<Layout> read_layout(const std::string& text, const std::string& file);

/// The shipped ones and those of `folder`/*.yaml; a folder that is not there adds none.
Result<LayoutSet> load_layouts(const std::filesystem::path& folder);

/// The joint that a name in a landmark file means, however it is spelt: "leftShoulder",
/// "LShoulder", "LEFT_SHOULDER", "left_shoulder_1_joint", "SHOULDER_LEFT", "left shoulder". Nothing
/// for names that mean no joint of ours. Unusual names are in profiles/layouts/names.yaml.
LayoutPoint joint_named(std::string_view name);

}  // namespace rangecheck::intake
