// SPDX-License-Identifier: MIT
#include "intake/assemble.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "intake/choose_layout.hpp"
#include "intake/missing.hpp"
#include "intake/picture.hpp"
#include "intake/space.hpp"

namespace rangecheck::intake {
namespace {

template <class Use>
void each_person(const RawFilm& raw, Use use) {
  for (const auto& frame : raw.frames) {
    for (const auto& person : frame.people) use(person);
  }
}

bool any_has(const RawFilm& raw, PointsOf list) {
  bool any = false;
  each_person(raw, [&](const RawPerson& person) { any = any || !(person.*list).empty(); });
  return any;
}

void sort_frames(RawFilm& raw, const Spot& where) {
  std::stable_sort(raw.frames.begin(), raw.frames.end(),
                   [](const RawFrame& a, const RawFrame& b) { return a.number < b.number; });
  const auto twice =
      std::adjacent_find(raw.frames.begin(), raw.frames.end(),
                         [](const RawFrame& a, const RawFrame& b) { return a.number == b.number; });
  if (twice == raw.frames.end()) return;
  refuse(where, Fault::bad_value, fmt::format("has two frames of number {}", twice->number),
         "keep the frames of one film only");
}

/// An identity that two people of one picture share is none: some estimators write the same number
/// for everyone when they don't follow people.
void check_tracks(RawFilm& raw) {
  bool shared = false;
  for (const auto& frame : raw.frames) {
    std::set<int> tracks;
    for (const auto& person : frame.people) {
      if (person.track) shared = shared || !tracks.insert(*person.track).second;
    }
  }
  if (!shared) return;
  for (auto& frame : raw.frames) {
    for (auto& person : frame.people) person.track.reset();
  }
}

// ------------------------------------------------------------------------------ in disguise

/// The point of this joint; one of NaNs where the list has none.
RawPoint point_of(const std::vector<RawPoint>& points, const std::vector<LayoutPoint>& layout,
                  LandmarkId id) {
  const auto found = std::find(layout.begin(), layout.end(), LayoutPoint(id));
  const auto index = static_cast<std::size_t>(found - layout.begin());
  return index < std::min(points.size(), layout.size()) ? points[index] : RawPoint{};
}

/// True when the middle of the hips is at the origin: points in space have it there, points in the
/// picture never do in a film that shows the golfer.
bool is_hip_centred(const std::vector<RawPoint>& body, const std::vector<LayoutPoint>& layout) {
  const RawPoint left = point_of(body, layout, lead(Joint::hip));
  const RawPoint right = point_of(body, layout, trail(Joint::hip));
  constexpr double within_m = 0.02;
  return !is_nowhere(left, false) && !is_nowhere(right, false) &&
         std::abs(left.x + right.x) < within_m && std::abs(left.y + right.y) < within_m;
}

/// Points in space that stand where those of the picture belong are moved to where they belong.
void unmask_space(RawFilm& raw, const std::vector<LayoutPoint>& layout, const Spot& where) {
  bool all = true, deep = true;
  each_person(raw, [&](const RawPerson& person) {
    if (person.body.empty() && person.space.empty()) return;
    all = all && person.space.empty() && is_hip_centred(person.body, layout);
    deep = deep && std::any_of(person.body.begin(), person.body.end(),
                               [](const RawPoint& point) { return std::abs(point.z) > 0; });
  });
  if (!all) return;
  if (!deep) {
    refuse(where, Fault::not_a_film,
           "holds only the estimator's points in space (metres about the mid-hip), not the points "
           "in the picture",
           "export the image landmarks too");
  }
  for (auto& frame : raw.frames) {
    for (auto& person : frame.people) person.space.swap(person.body);
  }
}

// ------------------------------------------------------------------------------ people

/// How the lists of this film are to be read.
struct Reading {
  Chosen body, space;
  Scoring body_scores, space_scores, hand_scores;
};

Scoring scoring_of(const RawFilm& raw, double least_score, std::initializer_list<PointsOf> lists) {
  ZeroScores zeros;
  each_person(raw, [&](const RawPerson& person) {
    for (const PointsOf list : lists) zeros.add(person.*list, list == &RawPerson::space);
  });
  const bool labels = raw.score == Score::label;
  return {raw.score, labels ? 0 : least_score, zeros.all() && !labels, raw.settled, zeros.most()};
}

void add_image(const std::vector<RawPoint>& points, const std::vector<LayoutPoint>& layout,
               const Scoring& scores, Person& person) {
  for (std::size_t i = 0; i < std::min(points.size(), layout.size()); ++i) {
    if (!layout[i]) continue;
    if (const auto confidence = confidence_of(points[i], scores, false)) {
      person.image[*layout[i]] = Sighting{{points[i].x, points[i].y}, *confidence};
    }
  }
}

/// True where the pelvis is at the origin because everything is counted from there, and not because
/// it is missing: between the hips.
bool is_origin_at_pelvis(const std::vector<RawPoint>& points,
                         const std::vector<LayoutPoint>& layout) {
  const RawPoint pelvis = point_of(points, layout, centre(Joint::pelvis));
  const RawPoint left = point_of(points, layout, lead(Joint::hip));
  const RawPoint right = point_of(points, layout, trail(Joint::hip));
  const bool at_origin = pelvis.x == 0 && pelvis.y == 0 && pelvis.z == 0;
  if (!at_origin || is_nowhere(left, true) || is_nowhere(right, true)) return false;
  const double off = std::hypot(left.x + right.x, left.y + right.y, left.z + right.z);
  const double apart = std::hypot(left.x - right.x, left.y - right.y, left.z - right.z);
  return off < apart;
}

void add_space(const std::vector<RawPoint>& points, const std::vector<LayoutPoint>& layout,
               const Scoring& scores, Person& person) {
  for (std::size_t i = 0; i < std::min(points.size(), layout.size()); ++i) {
    if (!layout[i]) continue;
    if (const auto confidence = confidence_of(points[i], scores, true)) {
      person.space[*layout[i]] =
          SpatialSighting{points[i].x, points[i].y, points[i].z, *confidence};
    }
  }
  if (is_origin_at_pelvis(points, layout)) person.space[centre(Joint::pelvis)] = SpatialSighting{};
}

/// The fingers' joints follow the wrist's in our own order as in everyone's.
void add_hand(const std::vector<RawPoint>& points, Side side, const Scoring& scores,
              Person& person) {
  constexpr std::size_t hand_point_count = 21;
  if (points.size() != hand_point_count) return;
  std::vector<LayoutPoint> layout;
  const LandmarkId wrist{side, Joint::wrist};
  // The body's own is where its forearm ends; the hand's may be of another person's.
  layout.push_back(person.image.has(wrist) ? LayoutPoint() : wrist);
  for (std::size_t i = 1; i < hand_point_count; ++i) {
    const auto first = static_cast<std::size_t>(Joint::thumb_1);
    layout.push_back(LandmarkId{side, static_cast<Joint>(first + i - 1)});
  }
  add_image(points, layout, scores, person);
}

template <class Map>
bool has_any(const Map& map) {
  const auto& values = map.values();
  return std::any_of(values.begin(), values.end(), [](const auto& v) { return v.has_value(); });
}

void fill(const RawPerson& raw, const Reading& how, Person& person) {
  person.track = raw.track;
  add_image(raw.body, how.body.points, how.body_scores, person);
  add_space(raw.space, how.space.points, how.space_scores, person);
  if (!has_any(person.image)) return;  // hands alone are nobody
  add_hand(raw.left_hand, Side::lead, how.hand_scores, person);
  add_hand(raw.right_hand, Side::trail, how.hand_scores, person);
}

void add_frames(const RawFilm& raw, const Reading& how, bool in_picture, Film& film) {
  film.frames.reserve(raw.frames.size());
  for (const RawFrame& raw_frame : raw.frames) {
    Frame& frame = film.frames.emplace_back();
    frame.number = raw_frame.number;
    frame.time = raw_frame.time;
    frame.people.reserve(raw_frame.people.size());
    for (const RawPerson& raw_person : raw_frame.people) {
      Person& person = frame.people.emplace_back();  // in its place, since a person is large
      fill(raw_person, how, person);
      const bool seen = in_picture ? has_any(person.image) : has_any(person.space);
      if (!seen) frame.people.pop_back();
    }
  }
}

bool gives_confidence(const Film& film) {
  for (const auto& frame : film.frames) {
    for (const auto& person : frame.people) {
      for (const auto& point : person.image.values()) {
        if (point && point->confidence != 1) return true;
      }
    }
  }
  return false;
}

/// "17 points a person, all pictures in one array".
std::string words_for(const RawFilm& raw, const Chosen& chosen) {
  if (raw.settled || raw.partial || chosen.points.empty()) return raw.form;
  const std::string count = std::to_string(chosen.points.size()) + " points";
  return raw.form.empty() ? count : count + " a person, " + raw.form;
}

Film film_of(const RawFilm& raw, const Chosen& chosen) {
  Film film;
  film.dialect = words_for(raw, chosen);
  film.estimator = raw.estimator != Estimator::unknown ? raw.estimator : chosen.estimator;
  film.image = raw.image;
  film.frame_rate_hz = raw.frame_rate_hz;
  film.space = raw.space.source;
  film.picture_is_drawn = raw.picture_is_drawn;
  film.notes = raw.notes;
  if (!chosen.note.empty()) film.notes.push_back(chosen.note);
  return film;
}

Reading reading_of(RawFilm& raw, const ReadOptions& options, const Spot& where) {
  Reading how;
  if (any_has(raw, &RawPerson::body)) {
    how.body = choose_layout(raw, &RawPerson::body, options, where);
    unmask_space(raw, how.body.points, where);
  }
  if (any_has(raw, &RawPerson::space)) {
    how.space = choose_layout(raw, &RawPerson::space, options, where);
  }
  const bool hands = any_has(raw, &RawPerson::left_hand) || any_has(raw, &RawPerson::right_hand);
  if (hands && how.body.points.empty() && how.space.points.empty()) {
    refuse(where, Fault::not_a_film, "holds the points of hands only, without a body",
           "export the body's points too");
  }
  how.body_scores = scoring_of(raw, how.body.least_score, {&RawPerson::body});
  how.space_scores = scoring_of(raw, how.space.least_score, {&RawPerson::space});
  how.hand_scores = scoring_of(raw, 0, {&RawPerson::left_hand, &RawPerson::right_hand});
  return how;
}

}  // namespace

Film assemble(RawFilm raw, const ReadOptions& options, const Spot& where) {
  sort_frames(raw, where);
  if (!raw.settled) check_tracks(raw);
  const Reading how = reading_of(raw, options, where);
  const bool in_picture = any_has(raw, &RawPerson::body) || !any_has(raw, &RawPerson::space);
  Film film = film_of(raw, in_picture ? how.body : how.space);
  add_frames(raw, how, in_picture, film);
  if (!raw.settled) to_camera_axes(raw.space, film);
  if (in_picture) {
    settle_image(film, options.image, where);
    if (!raw.settled) to_pixels(raw, film, where);
  } else {
    film.dialect += ", in space only";
    draw_picture(film);
  }
  film.confidence_given = gives_confidence(film);
  if (options.handedness == Handedness::left) turn_over(film);
  return film;
}

}  // namespace rangecheck::intake
