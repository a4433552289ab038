// SPDX-License-Identifier: MIT
#include "motion/signals.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace rangecheck::motion {
namespace {

/// Hip to ankle of a golfer of 1.70 m: 0.49 of stature (Winter, Biomechanics and Motor Control of
/// Human Movement, 4th ed. 2009, figure 4.1, from memory).
constexpr double leg_m = 0.83;
/// Points of less confidence are guesses of the estimator behind a body: they count for little
/// (by the square of their confidence) and never for distances between two points.
constexpr double sure = 0.5;
/// Feet are looked at over this long: a heel that lifts is no step.
constexpr double feet_span_s = 0.5;
/// Over which speed is taken: in less, jitter would be speed.
constexpr double speed_span_s = 0.1;

struct Weighed {
  double x = 0, y = 0, weight = 0;
  void add(double x_px, double y_px, double w) {
    x += w * x_px;
    y += w * y_px;
    weight += w;
  }
};

bool has(const SmoothTrack& track, LandmarkId id, std::size_t i) {
  const auto& series = track.landmarks[id];
  return series && series->state[i] != Series::State::missing;
}

double confidence(const SmoothTrack& track, LandmarkId id, std::size_t i) {
  return has(track, id, i) ? track.landmarks[id]->confidence[i] : 0;
}

/// Middle of several landmarks, each weighed by the square of its confidence.
std::optional<intake::ImagePoint> middle(const SmoothTrack& track, std::size_t i,
                                         std::initializer_list<LandmarkId> ids) {
  Weighed sum;
  for (const LandmarkId id : ids) {
    if (!has(track, id, i)) continue;
    const Series& series = *track.landmarks[id];
    const double weight = std::max(1e-3, series.confidence[i] * series.confidence[i]);
    sum.add(series.x_px[i], series.y_px[i], weight);
  }
  if (sum.weight <= 0) return std::nullopt;
  return intake::ImagePoint{sum.x / sum.weight, sum.y / sum.weight};
}

double median(std::vector<double> values) {
  const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), half, values.end());
  return *half;
}

/// A signal from what is known of each sample.
template <class Each>
Signal signal_of(std::size_t samples, const Each& each) {
  Signal out;
  out.value.assign(samples, 0);
  out.known.assign(samples, false);
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < samples; ++i) {
    const std::optional<double> value = each(i);
    if (!value) continue;
    out.value[i] = *value;
    out.known[i] = true;
    const std::size_t from = last ? *last : i;
    for (std::size_t j = last ? from + 1 : 0; j < i; ++j) {
      const double share = last ? static_cast<double>(j - from) / static_cast<double>(i - from) : 1;
      out.value[j] = out.value[from] + share * (*value - out.value[from]);
    }
    last = i;
  }
  if (last)
    std::fill(out.value.begin() + static_cast<std::ptrdiff_t>(*last), out.value.end(),
              out.value[*last]);
  return out;
}

/// Medians over `span` samples around each.
Signal calmed(const Signal& signal, std::size_t span) {
  Signal out = signal;
  for (std::size_t i = 0; i < signal.value.size(); ++i) {
    const std::size_t begin = i - std::min(i, span / 2),
                      end = std::min(i + span / 2 + 1, signal.value.size());
    out.value[i] = median({signal.value.begin() + static_cast<std::ptrdiff_t>(begin),
                           signal.value.begin() + static_cast<std::ptrdiff_t>(end)});
  }
  return out;
}

std::optional<double> metre_px(const SmoothTrack& track) {
  std::vector<double> legs;
  for (std::size_t i = 0; i < track.samples; ++i) {
    const auto hips = middle(track, i, {lead(Joint::hip), trail(Joint::hip)}),
               feet = middle(track, i, {lead(Joint::ankle), trail(Joint::ankle)});
    if (hips && feet) legs.push_back(std::hypot(hips->x_px - feet->x_px, hips->y_px - feet->y_px));
  }
  if (legs.empty()) return std::nullopt;
  const double leg_px = median(std::move(legs));
  if (leg_px < 1) return std::nullopt;
  return leg_px / leg_m;
}

/// Reads landmarks of one film as signals in metres from the feet.
class Reader {
 public:
  Reader(const SmoothTrack& track, double metre_px) : track_(track), metre_px_(metre_px) {}

  template <class Each>
  Signal each(const Each& of) const {
    return signal_of(track_.samples, of);
  }
  Signal place(bool up, std::initializer_list<LandmarkId> ids) const {
    return each([&](std::size_t i) -> std::optional<double> {
      const auto at = middle(track_, i, ids);
      if (!at) return std::nullopt;
      return (up ? -at->y_px : at->x_px) / metre_px_;
    });
  }
  /// From `a` to `b`, along or up, where both are there.
  Signal between(bool up, LandmarkId a, LandmarkId b) const {
    return each([&](std::size_t i) -> std::optional<double> {
      if (!has(track_, a, i) || !has(track_, b, i)) return std::nullopt;
      const Series &from = *track_.landmarks[a], &to = *track_.landmarks[b];
      return (up ? from.y_px[i] - to.y_px[i] : to.x_px[i] - from.x_px[i]) / metre_px_;
    });
  }
  bool seen(LandmarkId id) const { return track_.landmarks.has(id); }

 private:
  const SmoothTrack& track_;
  double metre_px_;
};

Signal minus(Signal a, const Signal& b) {
  for (std::size_t i = 0; i < a.value.size(); ++i) a.value[i] -= b.value[i];
  return a;
}

Signal speed_of(const Signal& x_m, const Signal& y_m, double step_s) {
  const auto half =
      std::max<std::size_t>(1, static_cast<std::size_t>(std::lround(speed_span_s / 2 / step_s)));
  const std::size_t count = x_m.value.size();
  Signal out = x_m;
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t a = i - std::min(i, half), b = std::min(i + half, count - 1);
    const double elapsed_s = std::max<double>(1, static_cast<double>(b - a)) * step_s;
    out.value[i] = std::hypot(x_m.value[b] - x_m.value[a], y_m.value[b] - y_m.value[a]) / elapsed_s;
  }
  return out;
}

void add_club(const Reader& read, Signals& out) {
  // The hosel is on the shaft; the toe a few centimetres off it, the middle half as telling.
  for (const Joint head : {Joint::hosel, Joint::club_toe, Joint::shaft_mid}) {
    for (const Joint grip : {Joint::grip_end, Joint::hands_mid}) {
      if (!read.seen(centre(head)) || !read.seen(centre(grip))) continue;
      out.shaft_x_m = read.between(false, centre(grip), centre(head));
      out.shaft_y_m = read.between(true, centre(grip), centre(head));
      out.head_x_m = minus(read.place(false, {centre(head)}), out.feet_x_m);
      out.head_y_m = minus(read.place(true, {centre(head)}), out.feet_y_m);
      return;
    }
  }
}

}  // namespace

bool Signal::any() const { return std::find(known.begin(), known.end(), true) != known.end(); }

double Signal::at(double place) const {
  const double last = static_cast<double>(value.size() - 1);
  const double held = std::clamp(place, 0.0, last);
  const auto i = std::min(static_cast<std::size_t>(held), value.size() - 1);
  if (i + 1 == value.size()) return value[i];
  return value[i] + (held - static_cast<double>(i)) * (value[i + 1] - value[i]);
}

double Signal::slope(double place) const { return (at(place + 1) - at(place - 1)) / 2; }

double Signal::from_known(double place) const {
  double nearest = static_cast<double>(value.size());
  for (std::size_t i = 0; i < known.size(); ++i) {
    if (known[i]) nearest = std::min(nearest, std::abs(static_cast<double>(i) - place));
  }
  return nearest;
}

std::size_t Signals::count(double seconds) const {
  return static_cast<std::size_t>(std::max(1L, std::lround(seconds / step_s)));
}

std::optional<Signals> signals_of(const SmoothTrack& track) {
  const auto scale = metre_px(track);
  if (!scale || track.samples < 4 || track.step_s <= 0) return std::nullopt;
  const Reader read(track, *scale);
  Signals out;
  out.start_s = track.start_s;
  out.step_s = track.step_s;
  out.samples = track.samples;
  const std::size_t span = out.count(feet_span_s);
  const auto ankles = {lead(Joint::ankle), trail(Joint::ankle)};
  out.feet_x_m = calmed(read.place(false, ankles), span);
  out.feet_y_m = calmed(read.place(true, ankles), span);
  const auto hands = {lead(Joint::wrist), trail(Joint::wrist)};
  out.x_m = minus(read.place(false, hands), out.feet_x_m);
  out.y_m = minus(read.place(true, hands), out.feet_y_m);
  if (!out.x_m.any()) return std::nullopt;
  out.speed_m_s = speed_of(out.x_m, out.y_m, out.step_s);
  out.sure = read.each([&](std::size_t i) -> std::optional<double> {
    return std::max(confidence(track, lead(Joint::wrist), i),
                    confidence(track, trail(Joint::wrist), i));
  });
  out.far_foot_m = read.between(true, trail(Joint::ankle), lead(Joint::ankle));
  out.lead_m = read.between(true, lead(Joint::shoulder), lead(Joint::wrist));
  out.trail_m = read.between(true, trail(Joint::shoulder), trail(Joint::wrist));
  out.hip_m = minus(read.place(true, {lead(Joint::hip), trail(Joint::hip)}), out.feet_y_m);
  out.shoulder_m =
      minus(read.place(true, {lead(Joint::shoulder), trail(Joint::shoulder)}), out.feet_y_m);
  out.turn_m = read.between(false, trail(Joint::shoulder), lead(Joint::shoulder));
  out.apart_m = read.each([&](std::size_t i) -> std::optional<double> {
    const LandmarkId a = lead(Joint::wrist), b = trail(Joint::wrist);
    if (confidence(track, a, i) < sure || confidence(track, b, i) < sure) return std::nullopt;
    return std::hypot(track.landmarks[a]->x_px[i] - track.landmarks[b]->x_px[i],
                      track.landmarks[a]->y_px[i] - track.landmarks[b]->y_px[i]) /
           *scale;
  });
  for (const Joint joint : {Joint::wrist, Joint::elbow, Joint::shoulder}) {
    for (const Side side : {Side::lead, Side::trail}) {
      const LandmarkId id{side, joint};
      if (!read.seen(id)) continue;
      out.body_m.push_back(read.place(false, {id}));
      out.body_m.push_back(read.place(true, {id}));
    }
  }
  add_club(read, out);
  return out;
}

std::optional<double> crossing(const Signal& signal, double level, std::size_t from,
                               std::size_t to) {
  const auto step = [&](std::size_t i) { return from <= to ? i + 1 : i - 1; };
  for (std::size_t i = from; i != to; i = step(i)) {
    const double a = signal.value[i] - level, b = signal.value[step(i)] - level;
    if (a == 0) return static_cast<double>(i);
    if ((a < 0) == (b < 0)) continue;
    const double share = a / (a - b);
    return static_cast<double>(i) + (from <= to ? share : -share);
  }
  return std::nullopt;
}

}  // namespace rangecheck::motion
