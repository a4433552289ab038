// SPDX-License-Identifier: MIT
#include "report/layouts_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "intake/joint_names.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

using intake::Layout;

std::size_t joints_in(const Layout& layout) {
  return std::count_if(layout.points.begin(), layout.points.end(),
                       [](const auto& point) { return point.has_value(); });
}

/// Just after the last of the points without use that begin at `first`.
std::size_t end_of_unused(const Layout& layout, std::size_t first) {
  const auto end = std::find_if(layout.points.begin() + static_cast<std::ptrdiff_t>(first),
                                layout.points.end(), [](const auto& point) { return point; });
  return end - layout.points.begin();
}

}  // namespace

std::string layouts_table(const intake::LayoutSet& layouts) {
  std::size_t name_width = 4, origin_width = 4;
  for (const Layout& layout : layouts.all()) {
    name_width = std::max(name_width, columns(layout.name));
    origin_width = std::max(origin_width, columns(layout.origin));
  }
  const auto line = [&](std::string_view name, std::string_view points, std::string_view joints,
                        std::string_view origin, std::string_view title) {
    return fmt::format("{}  {:>6}  {:>6}  {}  {}\n", padded(name, name_width), points, joints,
                       padded(origin, origin_width), title);
  };
  std::string table = line("name", "points", "joints", "from", "title");
  for (const Layout& layout : layouts.all())
    table += line(layout.name, std::to_string(layout.size()), std::to_string(joints_in(layout)),
                  layout.origin, layout.title);
  return table;
}

std::string layout_page(const Layout& layout) {
  std::string page = paragraph(fmt::format("{}: {}", layout.name, layout.title)) + "\n";
  page += paragraph(layout.source, "  source      ");
  page += fmt::format("  points      {}, of which {} are joints here\n", layout.size(),
                      joints_in(layout));
  if (layout.least_score > 0)
    page += fmt::format("  least score {:g}; below it a point was not seen\n", layout.least_score);
  page += "\n";
  for (std::size_t i = 0; i < layout.size(); ++i) {
    if (const auto& point = layout.points[i]) {
      page += fmt::format("{:>5}  {}\n", i, intake::point_names()[index_of(*point)]);
      continue;
    }
    const std::size_t last = end_of_unused(layout, i) - 1;
    page += last == i ? fmt::format("{:>5}  unused\n", i)
                      : fmt::format("{:>5}  unused, to {}\n", i, last);
    i = last;
  }
  return page;
}

}  // namespace rangecheck::report
