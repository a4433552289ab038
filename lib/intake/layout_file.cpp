// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "base/yaml.hpp"
#include "intake/joint_names.hpp"
#include "intake/layout.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view unused = "unused";
constexpr std::size_t most_points = 2000;
constexpr std::size_t hand_point_count = 21;
/// Fewer joints can't carry a body: shoulders, hips and knees are six.
constexpr std::ptrdiff_t fewest_joints = 6;

/// Point `index` of a hand that runs from the wrist over the thumb to the little finger, each from
/// base to tip: the i-th hand joint of our own order.
LandmarkId hand_point(std::size_t index, Side side) {
  if (index == 0) return {side, Joint::wrist};
  return {side, static_cast<Joint>(static_cast<std::size_t>(Joint::thumb_1) + index - 1)};
}

/// How many points an entry of `points` stands for when it is "unused" or "unused x 68"; else 0.
std::size_t unused_run(std::string_view entry) {
  if (!entry.starts_with(unused)) return 0;
  entry = trim(entry.substr(unused.size()));
  if (entry.empty()) return 1;
  if (!entry.starts_with("x ")) return 0;
  const auto count = parse_number(trim(entry.substr(2)));
  const bool fits = count && *count >= 1 && *count <= most_points &&
                    *count == static_cast<double>(static_cast<std::size_t>(*count));
  return fits ? static_cast<std::size_t>(*count) : 0;
}

bool has(const Layout& layout, LandmarkId id) {
  return std::find(layout.points.begin(), layout.points.end(), LayoutPoint(id)) !=
         layout.points.end();
}

/// Records a fault at one entry of a list, with its line.
struct Entry {
  std::string file;
  YAML::Node node;
  std::size_t index;
  Error error(std::string what, std::string remedy = "") const {
    return {Fault::bad_profile, std::move(what),
            Place{.file = file,
                  .line = node.Mark().line + 1,
                  .frame = {},
                  .key = "points[" + std::to_string(index) + "]"},
            std::move(remedy)};
  }
};

std::optional<Error> read_entry(const Entry& entry, Layout& layout) {
  if (!entry.node.IsScalar()) return entry.error("should be the name of a point");
  const std::string& name = entry.node.Scalar();
  const std::size_t run = unused_run(name);
  if (layout.size() + run > most_points) return entry.error("makes more points than can be");
  if (run > 0) {
    layout.points.resize(layout.size() + run);
    return std::nullopt;
  }
  const LayoutPoint point = point_called(name);
  if (!point) {
    const std::string near = did_you_mean(name);
    return entry.error("there is no point " + rangecheck::quoted(name),
                       near.empty() ? "write unused for a point without use" : near);
  }
  if (has(layout, *point)) return entry.error(name + " stands here twice");
  layout.points.push_back(point);
  return std::nullopt;
}

std::optional<Error> read_points(const YAML::Node& list, const std::string& file, Layout& layout) {
  std::size_t index = 0;
  for (const auto& node : list) {
    if (auto error = read_entry({file, node, index}, layout)) return error;
    if (layout.size() > most_points) {
      return Entry{file, node, index}.error("makes more points than can be");
    }
    ++index;
  }
  return std::nullopt;
}

/// Puts the fingers at their indices, and the wrist where the body has none.
void read_hand(yaml::Map& hands, std::string_view key, Side side, Layout& layout) {
  const auto first = hands.optional_number(key);
  if (!first) return;
  const bool whole = *first >= 0 && *first < most_points &&
                     *first == static_cast<double>(static_cast<std::size_t>(*first));
  if (!whole || static_cast<std::size_t>(*first) + hand_point_count > layout.size()) {
    return hands.fault(key, "21 points from here don't fit into the layout");
  }
  const auto base = static_cast<std::size_t>(*first);
  for (std::size_t i = 0; i < hand_point_count; ++i) {
    const LandmarkId id = hand_point(i, side);
    if (layout.points[base + i] || (i > 0 && has(layout, id))) {
      return hands.fault(key, "the hand covers a point that the list names",
                         "write unused x 21 in its place");
    }
    if (!has(layout, id)) layout.points[base + i] = id;
  }
}

void check_sides(yaml::Map& map, const Layout& layout) {
  for (const LayoutPoint& point : layout.points) {
    if (!point || has(layout, mirrored(*point))) continue;
    const auto& names = point_names();
    return map.fault("points", names[index_of(*point)] + " stands here without " +
                                   names[index_of(mirrored(*point))]);
  }
  const auto joints = std::count_if(layout.points.begin(), layout.points.end(),
                                    [](const LayoutPoint& point) { return point.has_value(); });
  if (joints < fewest_joints) {
    map.fault("points", "names " + std::to_string(joints) + " joints, too few for a body");
  }
}

bool is_kebab(std::string_view name) { return !name.empty() && kebab(name) == name; }

void read_rest(yaml::Map& map, Layout& layout) {
  if (map.has("hands")) {
    yaml::Map hands(map.node("hands"), map.file(), "hands");
    read_hand(hands, "left", Side::lead, layout);
    read_hand(hands, "right", Side::trail, layout);
    if (auto error = hands.finish()) map.fault("hands", error->what, error->remedy);
  }
  layout.least_score = map.optional_number("least-score").value_or(0);
  if (layout.least_score < 0 || layout.least_score >= 1) {
    map.fault("least-score", "should be from 0 to less than 1");
  }
  constexpr std::array<std::string_view, 1> estimators = {"points-33"};
  if (map.has("estimator") && map.choice("estimator", estimators) == estimators.front()) {
    layout.estimator = Estimator::points_33;
  }
}

}  // namespace

Result<Layout> read_layout(const std::string& text, const std::string& file) {
  const auto document = yaml::parse(text, file);
  if (!document) return document.error();
  yaml::Map map(*document, file);
  Layout layout;
  layout.origin = file;
  layout.name = map.text("layout");
  if (!layout.name.empty() && !is_kebab(layout.name)) {
    map.fault("layout", "should be lower-case words joined by hyphens");
  }
  layout.title = map.text("title");
  layout.source = map.text("source");
  const YAML::Node points = map.node("points");
  if (!points || !points.IsSequence()) {
    map.fault("points", "should be a list of points");
  } else if (auto error = read_points(points, file, layout)) {
    return *error;
  }
  read_rest(map, layout);
  check_sides(map, layout);
  if (auto error = map.finish()) {
    error->fault = Fault::bad_profile;
    return *error;
  }
  return layout;
}

}  // namespace rangecheck::intake
