// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

template <Side side>
constexpr LandmarkId needs[] = {{side, Joint::knee}, {side, Joint::heel}, {side, Joint::big_toe}};

/// Where a plumb line from the knee meets the foot, along the foot's own line from heel (0) to big
/// toe (1), seen from above. Undefined when heel and toe coincide from above.
std::optional<Ratio> over(const std::array<Point, 3>& given) {
  return along_ground(given[0], given[1], given[2]);
}

constexpr Placed over_the_middle[] = {{0.2, 0.5, 0.125}, {0.2, 0.03, 0}, {0.2, 0.01, 0.25}};
constexpr Placed flared[] = {{0.36, 0.5, 0.08}, {0.2, 0, 0}, {0.4, 0, 0.2}};
constexpr Placed over_the_toes[] = {{0.2, 0.5, 0.25}, {0.2, 0, 0}, {0.2, 0, 0.25}};
constexpr WorkedExample examples[] = {
    {over_the_middle, 0.5, 1e-9, "by construction"},
    {flared, 0.6, 1e-9, "by construction: (0.16 + 0.08) / 0.40 along a foot flared 45 deg"},
    {over_the_toes, 1, 1e-9, "by construction"},
};

template <Side side>
constexpr Rule rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::knees,
      .dimension = Dimension::ratio,
      .sign = "0 over the heel, about 0.6 laces, about 0.73 ball of the foot, 1 toes",
      .needs = needs<side>,
      .seen_limit_si = 0.15,  // 1.5 in of a foot of 10 in
      .limit = "The knee joint's middle, which lies some 2 in behind the knee cap (from memory).",
      .source = "laces and ball of the foot: common practice, no source",
      .examples = examples,
      .measure = from<needs<side>, over>,
  };
}

constexpr Rule rules[] = {rule<Side::lead>("lead-knee-over-foot", "Lead knee over the foot"),
                          rule<Side::trail>("trail-knee-over-foot", "Trail knee over the foot")};

}  // namespace

extern const RuleSet knee_over_foot;
constexpr RuleSet knee_over_foot = rules;

}  // namespace rangecheck::measure
