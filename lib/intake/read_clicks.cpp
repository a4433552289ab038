// SPDX-License-Identifier: MIT
#include "intake/read_clicks.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view written_as = "write it as - { frame: 37, grip_end: [612, 900] }";

void read_moment(yaml::Map& map, Click& click) {
  if (const auto frame = map.optional_number("frame")) {
    constexpr double largest = 1e15;  // whole numbers are exact in a double up to here
    if (*frame < 0 || *frame > largest ||
        *frame != static_cast<double>(static_cast<std::size_t>(*frame))) {
      map.fault("frame", "should be a whole number from 0");
    } else {
      click.frame = static_cast<std::size_t>(*frame);
    }
  }
  if (const auto time = map.optional_quantity("time", Dimension::time)) {
    click.time = Duration::seconds(time->si);
  }
  if (map.has("frame") == map.has("time")) {
    map.fault("frame", "is needed, or time, and not both", std::string(written_as));
  }
}

Result<Click> read_click(const YAML::Node& node, const std::string& file, const std::string& path) {
  yaml::Map map(node, file, path);
  Click click;
  read_moment(map, click);
  click.place = map.place(click.time ? "time" : "frame");
  for (std::size_t i = 0; i < club_joint_count; ++i) {
    const std::string_view name = key_of(club_joint(i));
    const YAML::Node written = map.node(name);
    if (!written) continue;
    if (const auto point = point_of(written)) {
      click.points.push_back({club_joint(i), *point});
    } else {
      map.fault(name, "should be a point in pixels", "write it as [612, 900]");
    }
  }
  if (const auto error = map.finish()) return *error;
  if (click.points.empty()) {
    map.fault("frame", "has no point of club or ball", "points are " + club_joint_names());
    return *map.finish();
  }
  return click;
}

}  // namespace

std::optional<ImagePoint> point_of(const YAML::Node& node) {
  if (!node.IsSequence() || node.size() != 2 || !node[0].IsScalar() || !node[1].IsScalar()) {
    return std::nullopt;
  }
  const auto x = parse_number(node[0].Scalar());
  const auto y = parse_number(node[1].Scalar());
  if (!x || !y) return std::nullopt;
  return ImagePoint{*x, *y};
}

Result<std::vector<Click>> read_clicks(const YAML::Node& node, const std::string& file,
                                       const std::string& path) {
  std::vector<Click> clicks;
  if (!node.IsSequence()) {
    return Error{Fault::bad_value, "should be a list of frames with points",
                 Place{.file = file, .line = node.Mark().line + 1, .frame = {}, .key = path},
                 std::string(written_as)};
  }
  for (std::size_t i = 0; i < node.size(); ++i) {
    auto click = read_click(node[i], file, fmt::format("{}[{}]", path, i));
    if (!click) return click.error();
    clicks.push_back(std::move(*click));
  }
  return clicks;
}

}  // namespace rangecheck::intake
