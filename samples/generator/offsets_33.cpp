// SPDX-License-Identifier: MIT
#include "generator/offsets_33.hpp"

#include <algorithm>
#include <iterator>

namespace rangecheck::samples {
namespace {

struct Row {
  Joint joint;
  Offset front_lead, front_trail, side_lead, side_trail;
};

// clang-format off
const Row rows[] = {
  {Joint::ear,      {{-39, 36}, {7, 16}},   {{45, 27}, {8, 18}},  {{15, 31}, {9, 13}},    {{11, 40}, {17, 18}}},
  {Joint::shoulder, {{-7, -19}, {11, 6}},   {{8, -23}, {8, 5}},   {{43, 1}, {26, 24}},    {{-16, -35}, {13, 13}}},
  {Joint::elbow,    {{-13, 10}, {19, 29}},  {{14, -6}, {11, 21}}, {{13, 43}, {23, 18}},   {{-6, -14}, {11, 8}}},
  {Joint::wrist,    {{-6, 4}, {33, 25}},    {{2, 0}, {6, 11}},    {{36, 30}, {11, 13}},   {{7, 5}, {5, 7}}},
  {Joint::hip,      {{-5, -4}, {15, 12}},   {{10, 3}, {17, 17}},  {{24, 15}, {12, 18}},   {{28, 3}, {11, 15}}},
  {Joint::knee,     {{-1, 11}, {8, 9}},     {{-4, 6}, {6, 12}},   {{7, 2}, {9, 28}},      {{0, -19}, {4, 6}}},
  {Joint::ankle,    {{7, -28}, {1, 5}},     {{-5, -27}, {8, 6}},  {{-1, -23}, {12, 20}},  {{-3, -30}, {5, 11}}},
  {Joint::heel,     {{-1, -15}, {11, 4}},   {{-1, -17}, {13, 6}}, {{16, -21}, {8, 25}},   {{8, -18}, {17, 9}}},
  {Joint::big_toe,  {{-15, -14}, {11, 4}},  {{2, -14}, {13, 3}},  {{-21, 0}, {7, 8}},     {{-35, -5}, {8, 7}}},
};
// clang-format on

}  // namespace

std::optional<Offset> offset_33(View view, LandmarkId id) {
  const auto row = std::find_if(std::begin(rows), std::end(rows),
                                [&](const Row& candidate) { return candidate.joint == id.joint; });
  if (row == std::end(rows)) return std::nullopt;
  if (view == View::face_on) return id.side == Side::lead ? row->front_lead : row->front_trail;
  return id.side == Side::lead ? row->side_lead : row->side_trail;
}

}  // namespace rangecheck::samples
