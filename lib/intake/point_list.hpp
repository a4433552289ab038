// SPDX-License-Identifier: MIT
// The ways in which all dialects write a list of points. A dialect says where its lists are and
// what the third number of a bare point means; this reads them.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "intake/raw_film.hpp"
#include "intake/value.hpp"

namespace rangecheck::intake {

/// What the numbers of a bare point are: [x, y], [x, y, c], [x, y, z] or [x, y, z, c].
enum class Parts { xy, xyc, yxc, xyz, xyzc };
constexpr std::size_t count_of(Parts parts) {
  return parts == Parts::xy ? 2 : parts == Parts::xyzc ? 4 : 3;
}

/// [x, y, c, x, y, c, …]. Refused when the count is no multiple of the parts'.
std::vector<RawPoint> read_flat(Value list, Parts parts, const Spot& where);

/// [[x, y, c], …], or objects (see read_point), mixed with null for a missing one. Bare points of
/// fewer numbers than `parts` leave the rest NaN; of more, the rest is refused.
std::vector<RawPoint> read_list(Value list, Parts parts, const Spot& where);

/// A list that is either of the two, told by its first entry.
std::vector<RawPoint> read_points(Value list, Parts parts, const Spot& where);

/// One point: bare, or an object with x, y and z directly, under `position` or under `point` (an
/// object or a bare list), and its score under visibility, score, confidence, conf, likelihood,
/// inFrameLikelihood or c. Null, and a bare point with a null among x, y and c, is a point of NaNs.
RawPoint read_point(Value value, Parts parts, const Spot& where);

/// True for a value that read_point takes.
bool is_point(Value value);

/// Names of points on their way to indices: the n-th new name is index n.
class Names {
 public:
  /// More names than the points of any estimator.
  static constexpr std::size_t most = 2000;

  /// Refused beyond `most`: each person may have as many points, and each name is looked for.
  std::size_t index_of(std::string_view name, const Spot& where);
  const std::vector<std::string>& all() const { return all_; }

 private:
  std::vector<std::string> all_;
  std::size_t next_ = 0;  ///< writers keep their order, so that this is nearly always the one
};

/// Objects that carry their name under name, part, bodyPart, type, keypoint or class; or an object
/// of points by name: {"left_hip": {…}, …}. Puts each at the index of its name. A name may be a
/// whole number.
std::vector<RawPoint> read_named(Value value, Parts parts, const Spot& where, Names& names);

}  // namespace rangecheck::intake
