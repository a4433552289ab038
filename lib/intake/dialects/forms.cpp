// SPDX-License-Identifier: MIT
#include "intake/dialects/forms.hpp"

namespace rangecheck::intake {
namespace {

constexpr const Form* forms[] = {
    &plain,  // the only one that says what it is
    &people_per_frame,
    &coco_results,
    &points_33,
};

}  // namespace

std::span<const Form* const> all_forms() { return forms; }

}  // namespace rangecheck::intake
