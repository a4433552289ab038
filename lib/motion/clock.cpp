// SPDX-License-Identifier: MIT
#include "motion/clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "motion/filter.hpp"

namespace rangecheck::motion {
namespace {

/// What phones film at unless told otherwise; common practice, no source.
constexpr double usual_rate_hz = 30;
/// A stated rate and the file's own that differ by less are the same: 29.97 is called 30.
constexpr double same_pace = 0.03;
/// More pictures in a row that are all alike are no camera's repeats: 30 pictures a second in a
/// film of 120 repeat three times. A golfer drawn without jitter stands still like that.
constexpr std::size_t most_repeats = 4;
/// A step longer than this many usual ones has lost a frame; one that differs from the usual by
/// more than `uneven` of it is uneven.
constexpr double lost_a_frame = 1.5, uneven = 0.25;
/// Stamps of which more than this share stand still are too coarse to tell frames apart.
constexpr double too_coarse = 0.1;
/// A film of n frames is at most `sparsest` × n + `always_fine` steps long: numbers that jump
/// farther are names of pictures and no count.
constexpr double sparsest = 20, always_fine = 15000;

bool same_picture(const pose::TrackFrame& a, const pose::TrackFrame& b) {
  if (!a.person || !b.person) return false;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto &p = a.person->image.values()[i], &q = b.person->image.values()[i];
    if (p.has_value() != q.has_value()) return false;
    if (p && (p->at.x_px != q->at.x_px || p->at.y_px != q->at.y_px)) return false;
  }
  return true;
}

/// Frames with the same landmarks as the one before, in runs short enough to be a camera's.
std::vector<bool> repeats(const std::vector<pose::TrackFrame>& frames) {
  std::vector<bool> same(frames.size()), out(frames.size());
  for (std::size_t i = 1; i < frames.size(); ++i) same[i] = same_picture(frames[i - 1], frames[i]);
  for (std::size_t i = 1; i < frames.size(); ++i) {
    if (!same[i]) continue;
    std::size_t end = i;
    while (end < frames.size() && same[end]) ++end;
    // A film that is one picture all through shows nothing of repeats.
    const bool whole = i == 1 && end == frames.size();
    for (std::size_t f = i; f < end; ++f) out[f] = !whole && end - i <= most_repeats;
    i = end;
  }
  return out;
}

/// A film is at most this many steps long for so many frames.
double most_steps(std::size_t frames) {
  return sparsest * static_cast<double>(frames) + always_fine;
}

/// Frame numbers where they count, else places in the file.
std::vector<double> counts_of(const std::vector<pose::TrackFrame>& frames) {
  std::vector<double> out;
  bool rising = true;
  for (const auto& frame : frames) {
    const double count = static_cast<double>(frame.number) - static_cast<double>(frames[0].number);
    rising = rising && (out.empty() || count > out.back());
    out.push_back(count);
  }
  if (rising && !out.empty() && out.back() <= most_steps(frames.size())) return out;
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = static_cast<double>(i);
  return out;
}

/// Steps between frames that show something new.
std::vector<double> steps_of(const std::vector<double>& time_s, const std::vector<bool>& repeated) {
  std::vector<double> out;
  for (std::size_t i = 0, before = 0; i < time_s.size(); ++i) {
    if (i == 0 || repeated[i]) continue;
    out.push_back(time_s[i] - time_s[before]);
    before = i;
  }
  return out;
}

/// The file's stamps from the first frame on; empty where there are none or not in every frame.
std::vector<double> stamps_of(const std::vector<pose::TrackFrame>& frames) {
  std::vector<double> out;
  for (const auto& frame : frames) {
    if (!frame.time) return {};
    out.push_back(frame.time->in_seconds() - frames[0].time->in_seconds());
  }
  return out;
}

Error at_frame(std::size_t frame, std::string what, std::string remedy) {
  Error out{Fault::bad_value, std::move(what), {}, std::move(remedy)};
  out.where.frame = frame;
  return out;
}

/// What is wrong with stamps, if anything.
std::optional<Error> fault_of(const std::vector<double>& stamp_s, const pose::Track& track) {
  std::vector<double> steps_s;
  for (std::size_t i = 1; i < stamp_s.size(); ++i) {
    steps_s.push_back(stamp_s[i] - stamp_s[i - 1]);
    if (steps_s.back() >= 0) continue;
    return at_frame(
        i, fmt::format("the time stamps of the {} film go backward", intake::name_of(track.view)),
        "write each frame's time in seconds from the start of the film");
  }
  const double usual_s = median(steps_s);
  if (usual_s <= 0 || stamp_s.back() / usual_s <= most_steps(stamp_s.size())) return std::nullopt;
  const auto longest = std::max_element(steps_s.begin(), steps_s.end());
  return at_frame(static_cast<std::size_t>(longest - steps_s.begin()) + 1,
                  fmt::format("the time stamps of the {} film have a gap of {:.4g} s",
                              intake::name_of(track.view), *longest),
                  "send the film in one piece");
}

/// Time between two frames of the film, by its stamps: of one count, and of one new picture.
struct Pace {
  double count_s = 0, picture_s = 0;
};

Pace pace_of(const std::vector<double>& stamp_s, const std::vector<double>& count,
             const std::vector<bool>& repeated) {
  std::vector<double> each;
  for (std::size_t i = 1; i < stamp_s.size(); ++i)
    each.push_back((stamp_s[i] - stamp_s[i - 1]) / (count[i] - count[i - 1]));
  return {median(std::move(each)), median(steps_of(stamp_s, repeated))};
}

bool close_to(double pace_s, double rate_hz) { return std::abs(pace_s * rate_hz - 1) < same_pace; }

/// Brings stamps to the pace that a person states, and says so.
void bring_to(double rate_hz, const Pace& pace, std::vector<double>& time_s,
              std::vector<Message>& notes) {
  if (close_to(pace.count_s, rate_hz) || close_to(pace.picture_s, rate_hz)) return;
  const double times = pace.count_s * rate_hz;
  for (double& each : time_s) each /= times;
  notes.push_back({times > 1 ? "clock.slow-motion" : "clock.fast-motion",
                   {{"times", fmt::format("{}", std::round(std::max(times, 1 / times) * 10) / 10)},
                    {"rate", fmt::format("{}", rate_hz)}}});
}

/// Times as stamped, or by the count where the stamps do not serve. Reads which frames of `clock`
/// are repeats; notes there what it assumes.
Result<std::vector<double>> times_of(const pose::Track& track, std::optional<double> stated_rate_hz,
                                     Clock& clock) {
  auto& notes = clock.notes;
  const auto count = counts_of(track.frames);
  auto time_s = stamps_of(track.frames);
  if (auto fault = fault_of(time_s, track)) return *fault;
  if (time_s.empty() && track.frames.size() > 0 && track.frames[0].time)
    notes.push_back({"clock.some-unstamped"});
  const auto still = std::count_if(time_s.begin(), time_s.end(), [before = -1.0](double t) mutable {
    return t == std::exchange(before, t);
  });
  double rate_hz = stated_rate_hz.value_or(usual_rate_hz);
  const bool coarse = static_cast<double>(still) > too_coarse * static_cast<double>(time_s.size());
  if (coarse && time_s.back() > 0 && !stated_rate_hz) rate_hz = count.back() / time_s.back();
  if (coarse) notes.push_back({"clock.coarse"});
  if (coarse || time_s.size() < 2) {
    clock.rate_assumed = !stated_rate_hz && !(coarse && time_s.back() > 0);
    if (!stated_rate_hz && !coarse && track.frames.size() > 1)
      notes.push_back({"clock.rate-assumed", {{"rate", fmt::format("{}", rate_hz)}}});
    time_s = count;
    for (double& each : time_s) each /= rate_hz;
  } else if (stated_rate_hz) {
    bring_to(rate_hz, pace_of(time_s, count, clock.repeated), time_s, notes);
  }
  return time_s;
}

/// Tells of frames that are lost or come unevenly. `time_s` as they come, repeats and all.
void describe(const std::vector<double>& time_s, std::vector<Message>& notes) {
  std::vector<double> steps_s;
  for (std::size_t i = 1; i < time_s.size(); ++i) steps_s.push_back(time_s[i] - time_s[i - 1]);
  const double usual_s = median(steps_s);
  const auto ordinary_end = std::partition(steps_s.begin(), steps_s.end(), [usual_s](double each) {
    return each <= lost_a_frame * usual_s;
  });
  double lost = 0;
  for (auto each = ordinary_end; each != steps_s.end(); ++each)
    lost += std::round(*each / usual_s) - 1;
  if (lost > 0) notes.push_back({"clock.lost", {{"count", static_cast<std::size_t>(lost)}}});
  steps_s.erase(ordinary_end, steps_s.end());
  const auto off = std::count_if(steps_s.begin(), steps_s.end(), [usual_s](double each) {
    return std::abs(each - usual_s) > uneven * usual_s;
  });
  if (static_cast<double>(off) <= too_coarse * static_cast<double>(steps_s.size())) return;
  const auto [least, most] = std::minmax_element(steps_s.begin(), steps_s.end());
  notes.push_back(
      {"clock.uneven", {{"least", Number{*least * 1000}}, {"most", Number{*most * 1000}}}});
}

}  // namespace

std::size_t Clock::frame_at(Duration time) const {
  const auto nearest = std::ranges::min_element(
      time_s, {}, [time](double each_s) { return std::abs(each_s - time.in_seconds()); });
  return static_cast<std::size_t>(nearest - time_s.begin());
}

Result<Clock> clock_of(const pose::Track& track, std::optional<double> stated_rate_hz) {
  if (stated_rate_hz && !(*stated_rate_hz > 0 && std::isfinite(*stated_rate_hz))) {
    return Error{Fault::bad_value,
                 fmt::format("the frame rate of the {} film is no number above 0",
                             intake::name_of(track.view)),
                 {},
                 "give the frames a second of the real scene"};
  }
  Clock out;
  out.repeated = repeats(track.frames);
  auto time_s = times_of(track, stated_rate_hz, out);
  if (!time_s) return time_s.error();
  out.time_s = *std::move(time_s);
  describe(out.time_s, out.notes);
  for (std::size_t i = 1; i < out.time_s.size(); ++i) {
    if (out.time_s[i] == out.time_s[i - 1]) out.repeated[i] = true;
    if (out.repeated[i]) out.time_s[i] = out.time_s[i - 1];
  }
  if (const auto all = std::count(out.repeated.begin(), out.repeated.end(), true); all > 0)
    out.notes.push_back({"clock.repeats", {{"count", static_cast<std::size_t>(all)}}});
  const auto steps_s = steps_of(out.time_s, out.repeated);
  out.step_s = steps_s.empty() ? 1 / stated_rate_hz.value_or(usual_rate_hz) : median(steps_s);
  return out;
}

}  // namespace rangecheck::motion
