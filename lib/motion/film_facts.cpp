// SPDX-License-Identifier: MIT
#include "motion/film_facts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "motion/filter.hpp"
#include "motion/in_picture.hpp"

namespace rangecheck::motion {
namespace {

/// A step longer than this many usual ones has lost a frame.
constexpr double lost_a_frame = 1.5;
/// Fewer pictures than this have no rate, and no jitter.
constexpr std::size_t least_pictures = 4;
/// Of the pictures of a swing, the share that may be worse than what is told of their margins.
constexpr double worst_share = 0.05;

/// Hands that would be this near an edge when they are lost have gone beyond it, and how far then:
/// heights of the golfer.
constexpr double gone_margin = 0.04;
constexpr Fact beyond_the_edge{-0.06, 0.03};

constexpr std::array body{Joint::shoulder, Joint::elbow, Joint::wrist, Joint::hip,
                          Joint::knee,     Joint::ankle, Joint::ear};

/// The joints of each part, in the order of Part.
const std::array<std::vector<Joint>, 6> joints_of_parts{{
    {Joint::nose, Joint::eye, Joint::ear},
    {Joint::shoulder, Joint::hip},
    {Joint::elbow, Joint::wrist},
    {Joint::knee, Joint::ankle},
    {Joint::heel, Joint::big_toe, Joint::small_toe},
    {Joint::grip_end, Joint::hosel, Joint::club_toe},
}};

using Frames = std::vector<std::size_t>;

/// Frames from `first` to `last` that show the golfer, each picture once.
Frames pictures(const pose::Track& track, const Clock& clock, std::size_t first, std::size_t last) {
  Frames out;
  for (std::size_t f = first; f <= last && f < track.frames.size(); ++f)
    if (track.frames[f].person && !clock.repeated[f]) out.push_back(f);
  return out;
}

/// Confidence of a joint in a frame, of its surer side; 0 where it is missing.
double sure_of(const pose::Track& track, std::size_t frame, Joint joint) {
  double out = 0;
  for (const Side side : {Side::centre, Side::lead, Side::trail}) {
    if ((side == Side::centre) == is_paired(joint)) continue;
    const auto& point = track.frames[frame].person->image[{side, joint}];
    if (point) out = std::max(out, point->confidence);
  }
  return out;
}

double mean_sure(const pose::Track& track, const Frames& frames, std::span<const Joint> joints) {
  double sum = 0;
  for (const std::size_t f : frames)
    for (const Joint joint : joints) sum += sure_of(track, f, joint);
  return sum / static_cast<double>(frames.size() * joints.size());
}

/// Hands that are lost on their way to an edge, or come back from it, are beyond it meanwhile.
void fill_where_gone(std::vector<std::optional<Fact>>& margins) {
  const auto seen = margins;
  const auto heads_out = [&seen](std::ptrdiff_t at, std::ptrdiff_t before) {
    const auto count = static_cast<std::ptrdiff_t>(seen.size());
    if (at < 0 || at >= count) return false;
    const double last = seen[at]->value;
    const bool moves = before >= 0 && before < count && seen[before];
    return last - (moves ? std::max(0.0, seen[before]->value - last) : 0) < gone_margin;
  };
  for (std::size_t i = 0; i < seen.size(); ++i) {
    if (seen[i]) continue;
    std::size_t end = i;
    while (end < seen.size() && !seen[end]) ++end;
    const auto first = static_cast<std::ptrdiff_t>(i), last = static_cast<std::ptrdiff_t>(end);
    if (heads_out(first - 1, first - 2) || heads_out(last, last + 1))
      std::fill(margins.begin() + first, margins.begin() + last, beyond_the_edge);
    i = end;
  }
}

/// What is being looked at: the film with its frames at address and in the swing.
class Looking {
 public:
  Looking(const pose::Track& track, const intake::Film& film, const Clock& clock,
          const FilmMotion* motion)
      : track_(track), film_(film), clock_(clock), motion_(motion) {
    const std::size_t last = track.frames.empty() ? 0 : track.frames.size() - 1;
    all_ = pictures(track, clock, 0, last);
    address_ = motion
                   ? pictures(track, clock, motion->address.first_frame, motion->address.last_frame)
                   : all_;
    if (address_.empty()) address_ = all_;
    if (motion && motion->swing)
      swing_ = pictures(track, clock, motion->address.last_frame, last_of_swing());
  }

  FilmFacts facts() const {
    FilmFacts out;
    out.shows_swing = !swing_.empty();
    out.pictures = all_.size();
    if (all_.empty()) return out;
    tell_times(out);
    if (film_.confidence_given) tell_parts(out);
    if (!film_.picture_is_drawn) tell_picture(out);
    return out;
  }

 private:
  /// The finish, or the last position that was found.
  std::size_t last_of_swing() const {
    std::optional<Duration> last;
    for (const auto& position : motion_->swing->positions)
      if (position.found) last = position.found->time;
    return last ? clock_.frame_at(*last) : track_.frames.size() - 1;
  }

  void tell_times(FilmFacts& out) const {
    if (motion_) {
      const auto& still = motion_->address;
      out.still_s =
          clock_.time_s[still.last_frame] - clock_.time_s[still.first_frame] + clock_.step_s;
      out.still_longer = !motion_->swing;
      out.after_address_s = clock_.time_s.back() - clock_.time_s[still.last_frame];
    } else {
      out.still_s = 0;
    }
    if (clock_.time_s.size() < least_pictures) {
      out.still_s.reset();  // a few single pictures have no time
      return;
    }
    if (!clock_.rate_assumed) out.rate_hz = 1 / clock_.step_s;
    std::vector<double> steps_s;
    double lost = 0;
    for (std::size_t i = 1, before = 0; i < clock_.time_s.size(); ++i) {
      if (clock_.repeated[i]) continue;
      const double step_s = clock_.time_s[i] - clock_.time_s[before];
      before = i;
      if (step_s > lost_a_frame * clock_.step_s)
        lost += std::round(step_s / clock_.step_s) - 1;
      else
        steps_s.push_back(step_s);
    }
    const double seen = static_cast<double>(steps_s.size()) + 1;
    out.lost_share = lost / (lost + seen);
    double squares = 0;
    for (const double step_s : steps_s) squares += std::pow(step_s / clock_.step_s - 1, 2);
    out.unevenness = std::sqrt(squares / std::max(1.0, static_cast<double>(steps_s.size())));
  }

  void tell_parts(FilmFacts& out) const {
    for (std::size_t part = 0; part < joints_of_parts.size(); ++part) {
      std::vector<Joint> given;
      for (const Joint joint : joints_of_parts[part]) {
        const auto shown = [&](std::size_t f) { return sure_of(track_, f, joint) > 0; };
        if (std::any_of(all_.begin(), all_.end(), shown)) given.push_back(joint);
      }
      if (given.empty()) continue;
      PartSeen seen{static_cast<Part>(part), mean_sure(track_, address_, given), std::nullopt};
      if (!swing_.empty()) seen.in_swing = mean_sure(track_, swing_, given);
      out.parts.push_back(seen);
    }
    const double at_address = mean_sure(track_, address_, std::array{Joint::wrist});
    const Frames down = way_down();
    if (down.empty() || !(at_address > 0)) return;
    out.hands_kept = mean_sure(track_, down, std::array{Joint::wrist}) / at_address;
  }

  /// From where the arm comes down level to impact: there hands are fast, and a body seen from
  /// behind does not hide them.
  Frames way_down() const {
    if (swing_.empty()) return {};
    const auto& from = (*motion_->swing)[Position::lead_arm_parallel_down].found;
    const auto& to = (*motion_->swing)[Position::impact].found;
    if (!from || !to) return {};
    return pictures(track_, clock_, clock_.frame_at(from->time), clock_.frame_at(to->time));
  }

  void tell_picture(FilmFacts& out) const {
    const auto picture = InPicture::of(film_, usual_places(track_, address_));
    if (!picture) return;
    out.height_share = picture->height_share();
    const auto of = [&](std::optional<Fact> (InPicture::*part)(const Places&) const) {
      std::vector<Fact> each;
      for (const std::size_t f : swing_)
        if (const auto fact = ((*picture).*part)(places_in(track_, f))) each.push_back(*fact);
      return margin(((*picture).*part)(usual_places(track_, address_)), std::move(each));
    };
    out.feet = of(&InPicture::feet);
    out.head = of(&InPicture::head);
    if (!swing_.empty()) out.hands = hands(*picture);
    out.jitter_share = jitter_px() / picture->height_px();
    if (address_.size() < least_pictures) out.jitter_share.reset();
    out.hands_step = hands_step(picture->height_px());
  }

  static std::optional<Margin> margin(const std::optional<Fact>& at_address,
                                      std::vector<Fact> each) {
    if (!at_address) return std::nullopt;
    Margin out{*at_address, *at_address, 0};
    if (each.empty()) return out;
    std::ranges::sort(each, {}, &Fact::value);
    const auto count = static_cast<double>(each.size());
    // One wild frame tells nothing.
    const auto place = std::max<std::size_t>(1, static_cast<std::size_t>(worst_share * count));
    const Fact& worst = each[std::min(place, each.size() - 1)];
    if (worst.value < out.least.value) out.least = worst;
    const auto cut =
        std::ranges::count_if(each, [](const Fact& one) { return one.value + one.u < 0; });
    out.cut_share = static_cast<double>(cut) / count;
    return out;
  }

  std::optional<Margin> hands(const InPicture& picture) const {
    const Places at_address = usual_places(track_, address_);
    std::optional<Fact> still;
    std::vector<std::optional<Fact>> nearer(swing_.size());
    const auto keep = [](std::optional<Fact>& into, const std::optional<Fact>& one) {
      if (one && (!into || one->value < into->value)) into = one;
    };
    for (const Side side : {Side::lead, Side::trail}) {
      keep(still, picture.hand(at_address, side));
      std::vector<std::optional<Fact>> seen;
      for (const std::size_t f : swing_) seen.push_back(picture.hand(places_in(track_, f), side));
      fill_where_gone(seen);
      for (std::size_t i = 0; i < seen.size(); ++i) keep(nearer[i], seen[i]);
    }
    std::vector<Fact> each;
    for (const auto& one : nearer)
      if (one) each.push_back(*one);
    return margin(still, std::move(each));
  }

  /// From one picture to the next, along one axis.
  double jitter_px() const {
    std::vector<double> of_joints;
    for (const Joint joint : body) {
      for (const Side side : {Side::lead, Side::trail}) {
        std::vector<double> steps_px;
        for (std::size_t i = 1; i < address_.size(); ++i) {
          const auto& a = track_.frames[address_[i - 1]].person->image[{side, joint}];
          const auto& b = track_.frames[address_[i]].person->image[{side, joint}];
          if (!a || !b) continue;
          steps_px.push_back(std::abs(b->at.x_px - a->at.x_px));
          steps_px.push_back(std::abs(b->at.y_px - a->at.y_px));
        }
        if (steps_px.empty()) continue;
        // A difference of two spreads √2 as much as either.
        of_joints.push_back(deviation_over_mad * median(std::move(steps_px)) / std::sqrt(2.0));
      }
    }
    return median(std::move(of_joints));
  }

  /// The better seen wrist's, so that one lost behind the body does not count.
  std::optional<double> hands_step(double height_px) const {
    if (swing_.empty()) return std::nullopt;
    std::optional<double> out;
    for (const Side side : {Side::lead, Side::trail}) {
      double fastest_px = 0;
      for (std::size_t i = 1; i < swing_.size(); ++i) {
        const auto& from = motion_->track.at(Duration::seconds(clock_.time_s[swing_[i - 1]]));
        const auto& to = motion_->track.at(Duration::seconds(clock_.time_s[swing_[i]]));
        const auto &a = from.points[{side, Joint::wrist}], &b = to.points[{side, Joint::wrist}];
        const double steps =
            (clock_.time_s[swing_[i]] - clock_.time_s[swing_[i - 1]]) / clock_.step_s;
        if (!a || !b || steps > lost_a_frame) continue;
        fastest_px =
            std::max(fastest_px, std::hypot(b->at.x_px - a->at.x_px, b->at.y_px - a->at.y_px));
      }
      if (fastest_px > 0) out = std::min(out.value_or(fastest_px), fastest_px);
    }
    if (out) *out /= height_px;
    return out;
  }

  const pose::Track& track_;
  const intake::Film& film_;
  const Clock& clock_;
  const FilmMotion* motion_;
  Frames all_, address_, swing_;
};

}  // namespace

std::string_view name_of(Part part) {
  constexpr std::array<std::string_view, 6> names{"head", "trunk", "arms", "legs", "feet", "club"};
  return names[static_cast<std::size_t>(part)];
}

FilmFacts film_facts(const pose::Track& track, const intake::Film& film, const Clock& clock,
                     const FilmMotion* motion) {
  return Looking(track, film, clock, motion).facts();
}

}  // namespace rangecheck::motion
