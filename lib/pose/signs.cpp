// SPDX-License-Identifier: MIT
#include "pose/signs.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace rangecheck::pose {
namespace {

/// Hands nearer than this, over height, hold one club: an estimator that sees only one of them is
/// off by as much.
constexpr double joined = 0.14;
/// Speeds are taken over this long.
constexpr double speed_span_s = 0.1;
/// Hands that move less than this over such a time, over height, don't tell of a reflection.
constexpr double least_change = 0.01;
constexpr std::size_t least_common_frames = 8;

/// Middle of a pair where both are seen.
std::optional<Offset> middle_of(const Shape& shape, Joint joint) {
  const std::size_t a = point_of(lead(joint)), b = point_of(trail(joint));
  if (!shape.has(a) || !shape.has(b)) return std::nullopt;
  return Offset{(shape.x_px[a] + shape.x_px[b]) / 2, (shape.y_px[a] + shape.y_px[b]) / 2};
}

double width_of(const Shape& shape, Joint joint) {
  const std::size_t a = point_of(lead(joint)), b = point_of(trail(joint));
  return std::hypot(shape.x_px[a] - shape.x_px[b], shape.y_px[a] - shape.y_px[b]);
}

double quantile(std::vector<double>& values, double share) {
  const auto at = values.begin() +
                  static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1) + 0.5);
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

/// Between the 5 % and the 95 % quantile.
double range_of(std::vector<double>& values) {
  if (values.empty()) return 0;
  return quantile(values, 0.95) - quantile(values, 0.05);
}

/// Both hands from the hips, over height, in one frame.
struct Hands {
  double when = 0, x = 0, y = 0;
  bool joined = false;
};

std::vector<Hands> hands_of(const Sightings& sightings, const Someone& person, double height_px) {
  std::vector<Hands> out;
  for (const Tracklet& stretch : person.stretches) {
    for (const At& at : stretch.seen) {
      const Shape& shape = sightings.shape(at);
      const auto hands = middle_of(shape, Joint::wrist), hips = middle_of(shape, Joint::hip);
      if (!hands || !hips) continue;
      out.push_back({sightings.when[at.frame], (hands->x_px - hips->x_px) / height_px,
                     (hands->y_px - hips->y_px) / height_px,
                     width_of(shape, Joint::wrist) < joined * height_px});
    }
  }
  return out;
}

/// The greatest over a tenth of a second but for the wildest one in fifty, heights a second.
double speed_of(const std::vector<Hands>& hands, double step_s) {
  const double span = std::max(1.0, speed_span_s / step_s);
  std::vector<double> speeds;
  std::size_t from = 0;
  for (std::size_t to = 0; to < hands.size(); ++to) {
    while (hands[to].when - hands[from].when > 1.01 * span) ++from;
    const double time_s = (hands[to].when - hands[from].when) * step_s;
    if (!hands[from].joined || !hands[to].joined || time_s < 0.5 * span * step_s) continue;
    speeds.push_back(std::hypot(hands[to].x - hands[from].x, hands[to].y - hands[from].y) / time_s);
  }
  return speeds.empty() ? 0 : quantile(speeds, 0.98);
}

bool is_whole(const Shape& shape) {
  const bool head = shape.has(point_of(centre(Joint::nose))) ||
                    shape.has(point_of(lead(Joint::ear))) || shape.has(point_of(trail(Joint::ear)));
  return head && middle_of(shape, Joint::ankle);
}

/// 1 where the body is turned as a golfer's is in this view, −1 where it is turned the other way:
/// from the front lead is on the right of the picture, from behind the toes point to the right.
std::optional<double> faces_ball(const Shape& shape, intake::View view) {
  constexpr double clearly = 0.05;  // of height
  double sum_px = 0, count = 0;
  const auto add = [&](LandmarkId right, LandmarkId left) {
    const std::size_t a = point_of(right), b = point_of(left);
    if (!shape.has(a) || !shape.has(b)) return;
    sum_px += shape.x_px[a] - shape.x_px[b];
    ++count;
  };
  if (view == intake::View::face_on) {
    for (const Joint joint : {Joint::hip, Joint::ankle, Joint::knee})
      add(lead(joint), trail(joint));
  } else {
    for (const Side side : {Side::lead, Side::trail}) {
      add({side, Joint::big_toe}, {side, Joint::heel});
      add(centre(Joint::nose), {side, Joint::ear});
    }
  }
  if (count == 0) return std::nullopt;
  return std::clamp(sum_px / count / shape.height_px / clearly, -1.0, 1.0);
}

}  // namespace

Signs signs_of(const Sightings& sightings, const Someone& person, const intake::FilmedView& view) {
  Signs out;
  const auto frames = static_cast<double>(person.frames());
  std::vector<double> along, bent, legs, faces;
  for (const Tracklet& stretch : person.stretches) {
    for (const At& at : stretch.seen) {
      const Shape& shape = sightings.shape(at);
      out.height_px += shape.height_px / frames;
      along.push_back(middle_of(shape, Joint::hip).value_or(shape.middle).x_px);
      out.whole += is_whole(shape) / frames;
      const auto hips = middle_of(shape, Joint::hip), feet = middle_of(shape, Joint::ankle),
                 shoulders = middle_of(shape, Joint::shoulder);
      if (hips && feet) legs.push_back((feet->y_px - hips->y_px) / shape.height_px);
      if (hips && shoulders)
        bent.push_back(std::abs(shoulders->x_px - hips->x_px) / shape.height_px);
      if (const auto each = faces_ball(shape, view.view)) faces.push_back(*each);
    }
  }
  out.presence = frames / static_cast<double>(sightings.frames.size());
  const auto middle_value = [](std::vector<double>& values) {
    return values.empty() ? 0 : quantile(values, 0.5);
  };
  out.bent = middle_value(bent);
  out.legs = middle_value(legs);
  out.faces_ball = middle_value(faces);
  if (view.film.image && view.film.image->width_px > 0) {
    auto places = along;
    out.aside = std::abs(quantile(places, 0.5) / view.film.image->width_px - 0.5) * 2;
  }
  out.travel = range_of(along) / out.height_px;
  const auto hands = hands_of(sightings, person, out.height_px);
  if (hands.empty()) return out;
  std::vector<double> x, y;
  for (const Hands& each : hands) {
    if (!each.joined) continue;
    x.push_back(each.x);
    y.push_back(each.y);
  }
  out.hands_joined = static_cast<double>(x.size()) / static_cast<double>(hands.size());
  out.hands_range = std::hypot(range_of(x), range_of(y));
  out.hands_speed = speed_of(hands, sightings.step_s);
  return out;
}

double in_step(const Sightings& sightings, const Someone& a, const Someone& b) {
  const auto series_of = [&](const Someone& person) {
    std::map<double, Hands> out;
    double height_px = 0;
    const auto seen = person.seen();
    for (const At& at : seen)
      height_px += sightings.shape(at).height_px / static_cast<double>(seen.size());
    for (const Hands& each : hands_of(sightings, person, height_px)) out[each.when] = each;
    return out;
  };
  const auto of_a = series_of(a), of_b = series_of(b);
  // Changes over a moment: two people who swing at about the same time differ in these.
  const double span = std::max(1.0, speed_span_s / sightings.step_s);
  double n = 0, along = 0, up = 0, of_a_alone = 0, of_b_alone = 0;
  for (const auto& [when, from_a] : of_a) {
    const auto to_a = of_a.lower_bound(when + span - 0.01);
    if (to_a == of_a.end() || to_a->first > when + 1.5 * span) continue;
    const auto from_b = of_b.find(when), to_b = of_b.find(to_a->first);
    if (from_b == of_b.end() || to_b == of_b.end()) continue;
    const double ax = to_a->second.x - from_a.x, ay = to_a->second.y - from_a.y,
                 bx = to_b->second.x - from_b->second.x, by = to_b->second.y - from_b->second.y;
    ++n;
    along += ax * bx;
    up += ay * by;
    of_a_alone += ax * ax + ay * ay;
    of_b_alone += bx * bx + by * by;
  }
  const double least = n * least_change * least_change;
  if (n < least_common_frames || of_a_alone < least || of_b_alone < least) return 0;
  // A mirror beside the golfer turns right into left, one behind does not.
  return (up + std::abs(along)) / std::sqrt(of_a_alone * of_b_alone);
}

}  // namespace rangecheck::pose
