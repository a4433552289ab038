// SPDX-License-Identifier: MIT
#include "generator/dialects/dialects.hpp"

#include <stdexcept>

namespace rangecheck::samples {

ScenePoint point_of(const ScenePerson& person, const OrderedPoint& point) {
  if (point.id) return *person.points[*point.id];
  ScenePoint face = *person.points[centre(Joint::neck)];
  face.at_px.y() -= 10;
  face.at_m.y() -= 0.1;
  return face;
}

std::vector<ScenePoint> points_of(const ScenePerson& person, const PointOrder& order) {
  std::vector<ScenePoint> points;
  for (const auto& point : order) points.push_back(point_of(person, point));
  return points;
}

std::vector<Dialect> all_dialects() {
  std::vector<Dialect> all;
  for (const auto& family : {plain_dialects(), array_dialects(), instance_dialects(),
                             object_dialects(), points_33_dialects(), space_dialects()}) {
    all.insert(all.end(), family.begin(), family.end());
  }
  return all;
}

Dialect dialect_of(std::string_view form, std::size_t points) {
  for (const auto& dialect : all_dialects())
    if (dialect.form == form && dialect.points.size() == points) return dialect;
  throw std::runtime_error("no such dialect: " + std::string(form));
}

}  // namespace rangecheck::samples
