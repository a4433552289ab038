// SPDX-License-Identifier: MIT
#include "intake/dialects/marks_33.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"

namespace rangecheck::intake {
namespace {

/// The box around a person's points in the picture.
struct Box {
  double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
  double size() const { return std::max(right - left, bottom - top); }
  double farthest() const { return std::max({-left, right, -top, bottom}); }
};

Box box_around(const std::vector<RawPoint>& points) {
  Box box;
  for (const auto& point : points) {
    if (!std::isfinite(point.x) || !std::isfinite(point.y)) continue;
    box.left = std::min(box.left, point.x);
    box.right = std::max(box.right, point.x);
    box.top = std::min(box.top, point.y);
    box.bottom = std::max(box.bottom, point.y);
  }
  return box;
}

constexpr std::size_t count = 33;

/// The body of middle size.
std::optional<Box> usual_box(const RawFilm& film) {
  std::vector<Box> boxes;
  for (const auto& frame : film.frames) {
    for (const auto& person : frame.people) {
      const Box box = box_around(person.body);
      if (person.body.size() >= count && box.size() > 0) boxes.push_back(box);
    }
  }
  if (boxes.empty()) return std::nullopt;
  const auto middle = boxes.begin() + static_cast<std::ptrdiff_t>(boxes.size() / 2);
  std::nth_element(boxes.begin(), middle, boxes.end(),
                   [](const Box& a, const Box& b) { return a.size() < b.size(); });
  return *middle;
}

}  // namespace

bool is_name_of_33(std::string_view name) {
  std::string letters = lower(name);
  std::erase_if(letters, [](char c) { return c == '_' || c == ' ' || c == '-'; });
  return letters == "leftfootindex" || letters == "rightfootindex";
}

void check_scale_of_33(const RawFilm& film, const Spot& where) {
  const auto box = usual_box(film);
  if (!box) return;
  // Larger than any body in fractions or in metres; in a corner of the picture that holds no golfer
  // to speak of, about the picture's corner as points in space are about the hips, or outside.
  constexpr double largest_in_metres = 4, corner_px = 150;
  if (box->size() <= largest_in_metres) return;
  const bool outside = box->left + box->right < 0 || box->top + box->bottom < 0;
  const double off = std::hypot(box->left + box->right, box->top + box->bottom) / 2;
  const bool about_origin = off < box->size() / 4;
  if (box->farthest() > corner_px && !outside && !about_origin) return;
  refuse(where, Fault::not_a_film,
         fmt::format("has points from ({:.0f}, {:.0f}) to ({:.0f}, {:.0f}), which are neither "
                     "pixels nor fractions of the picture nor metres",
                     box->left, box->top, box->right, box->bottom),
         "export the points as the estimator gives them, not multiplied or moved");
}

}  // namespace rangecheck::intake
