// SPDX-License-Identifier: MIT
// A figure drawn from published body proportions measures as it was drawn: a second route to rules
// that takes no rule's word for it.
#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include "close.hpp"
#include "measure/address.hpp"

namespace rangecheck {
namespace {

constexpr double stature_m = 1.75;

struct Row {
  double share, metres;
};

std::map<std::string, Row> body_segments() {
  std::ifstream file(RANGECHECK_SOURCE_DIR "/tests/published/body_segments.csv");
  std::map<std::string, Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#') || line.starts_with("part")) continue;
    std::istringstream fields(line);
    std::string part, share, metres;
    std::getline(fields, part, ',');
    std::getline(fields, share, ',');
    std::getline(fields, metres);
    rows[part] = {std::stod(share), std::stod(metres)};
  }
  return rows;
}

/// Standing at attention in the golfer frame, heels under the shoulders, arms hanging.
posture::Posture standing(const std::map<std::string, Row>& rows) {
  const auto part = [&rows](const char* name) { return rows.at(name).share * stature_m; };
  const double shoulder = part("shoulder width") / 2, hip = part("hip width") / 2;
  const double elbow_height = part("shoulder height") - part("upper arm");
  const std::vector<test::At> lead_side = {
      {lead(Joint::shoulder), {shoulder, part("shoulder height"), 0}},
      {lead(Joint::elbow), {shoulder, elbow_height, 0}},
      {lead(Joint::wrist), {shoulder, elbow_height - part("forearm"), 0}},
      {lead(Joint::hip), {hip, part("hip height"), 0}},
      {lead(Joint::knee), {hip, part("knee height"), 0}},
      {lead(Joint::ankle), {hip, part("ankle height"), 0}},
      {lead(Joint::heel), {shoulder, 0, 0}},
      {lead(Joint::big_toe), {shoulder, 0, part("foot length")}}};
  posture::Posture out;
  out.mean.resize(6 * static_cast<Eigen::Index>(lead_side.size()));
  for (const auto& [id, at] : lead_side) {
    for (const double side : {1.0, -1.0}) {
      const auto row = 3 * static_cast<Eigen::Index>(out.landmarks.size());
      out.mean.segment<3>(row) << side * at.x, at.y, at.z;
      out.landmarks.push_back(side > 0 ? id : mirrored(id));
    }
  }
  return out;
}

}  // namespace

TEST_CASE("the table of body proportions is whole") {
  const auto rows = body_segments();
  REQUIRE(rows.size() == 9);
  for (const auto& [part, row] : rows) {
    CAPTURE(part);
    CHECK_CLOSE(row.share * stature_m, row.metres, 0.0001);
  }
}

TEST_CASE("a standing figure of published proportions measures as drawn") {
  const auto posture = standing(body_segments());
  const auto value = [&posture](std::string_view id) {
    const auto& rule = *measure::find_rule(id);
    return test::in_example_unit(rule, *rule.measure(test::points_for(rule, posture)));
  };
  CHECK_CLOSE(value("stance-width"), 0.4533, 0.0002);
  CHECK_CLOSE(value("stance-width-to-hips"), 0.259 / 0.191, 1e-9);
  CHECK_CLOSE(value("hand-height"), (0.818 - 0.186 - 0.146) * stature_m, 1e-9);
  CHECK_CLOSE(value("lead-knee-inset"), 0, 1e-9);
  CHECK_CLOSE(value("arm-hang"), 0, 1e-9);
  for (const char* straight :
       {"lead-knee-flexion", "trail-knee-flexion", "lead-elbow-flexion", "trail-elbow-flexion",
        "hip-hinge", "forward-bend", "side-bend", "lead-foot-flare", "trail-foot-flare",
        "shoulder-line-to-stance", "hip-tilt", "shoulder-tilt"}) {
    CAPTURE(straight);
    CHECK_CLOSE(value(straight), 0, 1e-6);
  }
  CHECK_CLOSE(value("balance-along-stance"), 0.5, 1e-9);
  // Only the feet are in front of the ankles: 2 × 0.0145 of the mass, half a foot length ahead.
  CHECK_CLOSE(value("balance-along-feet"), 0.0145, 1e-9);
}

}  // namespace rangecheck
