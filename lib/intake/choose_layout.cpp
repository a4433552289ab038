// SPDX-License-Identifier: MIT
#include "intake/choose_layout.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "intake/body_likeness.hpp"
#include "intake/joint_names.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::size_t hand_point_count = 21;
constexpr std::string_view plain_remedy = "write it in the plain form that README shows";

/// Fewer can't carry a body: shoulders, hips and knees are six.
constexpr std::ptrdiff_t fewest_joints = 6;

bool is_of_a_hand(LandmarkId id) {
  return id.joint >= Joint::thumb_1 && id.joint <= Joint::little_4;
}

Chosen chosen(const Layout& layout, Message note = {}) {
  return {layout.points, layout.least_score, layout.estimator, std::move(note)};
}

/// Each joint once: where two names mean the same one, the first.
std::vector<LayoutPoint> joints_named(const std::vector<std::string>& names) {
  std::vector<LayoutPoint> points;
  LandmarkMap<bool> taken;
  for (const auto& name : names) {
    LayoutPoint point = joint_named(name);
    if (point && taken.has(*point)) point.reset();
    if (point) taken[*point] = true;
    points.push_back(point);
  }
  return points;
}

std::string shown(const std::vector<std::string>& names) {
  constexpr std::size_t most = 4;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), most); ++i) {
    text += (i == 0 ? "" : ", ") + rangecheck::quoted(names[i]);
  }
  return text + (names.size() > most ? ", …" : "");
}

[[noreturn]] void refuse_names(const RawFilm& film, const std::vector<LayoutPoint>& points,
                               std::ptrdiff_t body, const Spot& where) {
  const auto animal = std::find_if(film.names.begin(), film.names.end(),
                                   [](const auto& name) { return names_an_animal(name); });
  if (animal != film.names.end()) {
    refuse(where, Fault::not_a_film,
           "has a point " + rangecheck::quoted(*animal) + ", which no human body has");
  }
  const bool hands = std::any_of(points.begin(), points.end(),
                                 [](const LayoutPoint& p) { return p && is_of_a_hand(*p); });
  if (hands && body == 0) {
    refuse(where, Fault::not_a_film, "holds the points of hands only, without a body",
           "export the body's points too");
  }
  refuse(where, Fault::not_a_film,
         fmt::format("names its points {}: {} of all its names are joints of a human body, too few "
                     "to follow a golfer",
                     shown(film.names), body),
         std::string(plain_remedy));
}

/// How many joints of a body, hands left out, the names mean; 0 for those of an animal.
std::ptrdiff_t body_joints(const std::vector<std::string>& names,
                           const std::vector<LayoutPoint>& points) {
  for (const auto& name : names) {
    if (names_an_animal(name)) return 0;
  }
  return std::count_if(points.begin(), points.end(), [](const LayoutPoint& p) {
    return p && !is_of_a_hand(*p) && p->joint != Joint::wrist;
  });
}

bool is_of_a_leg(LandmarkId id) { return id.joint >= Joint::hip && id.joint <= Joint::small_toe; }

/// The layout that has the same joints at the same indices, but the legs' sides exchanged.
const Layout* with_legs_exchanged(const std::vector<LayoutPoint>& points,
                                  const LayoutSet& layouts) {
  for (const Layout* layout : layouts.of_size(points.size())) {
    bool fits = true, any = false;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const LayoutPoint &here = points[i], &there = layout->points[i];
      if (!here || !there || !is_paired(here->joint)) continue;
      const bool leg = is_of_a_leg(*here);
      any = any || leg;
      fits = fits && *there == (leg ? mirrored(*here) : *here);
    }
    if (fits && any) return layout;
  }
  return nullptr;
}

/// By the names; or, where these contradict the film and it is known who writes them so, by the
/// layout that they should have named.
Chosen chosen_by_name(const RawFilm& film, PointsOf list, std::vector<LayoutPoint> points,
                      const LayoutSet& layouts) {
  if (const Layout* layout = with_legs_exchanged(points, layouts);
      layout != nullptr && legs_are_crossed(film, list, points)) {
    Chosen fixed = chosen(*layout);
    fixed.note = {"reading.legs-exchanged", {{"order", layout->name}}};
    return fixed;
  }
  const auto same = layouts.of_size(points.size());
  const auto known = std::find_if(same.begin(), same.end(),
                                  [&](const Layout* layout) { return layout->points == points; });
  // What is known of the layout's scores holds for the names' too.
  const double least_score = known == same.end() ? 0 : (*known)->least_score;
  return {std::move(points), least_score, film.estimator, ""};
}

/// How many points the lists have; refused when they differ.
std::size_t count_in(const RawFilm& film, PointsOf list, const Spot& where) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < film.frames.size(); ++i) {
    for (const RawPerson& person : film.frames[i].people) {
      const std::size_t here = (person.*list).size();
      if (here == 0 || here == count) continue;
      if (count != 0) {
        refuse(where.in_frame(i), Fault::not_a_film,
               fmt::format("has a person of {} points, after others of {}", here, count),
               "export the whole film with one estimator");
      }
      count = here;
    }
  }
  return count;
}

std::string known_counts(const LayoutSet& layouts) {
  std::vector<std::size_t> counts;
  for (const Layout& layout : layouts.all()) counts.push_back(layout.size());
  std::sort(counts.begin(), counts.end());
  counts.erase(std::unique(counts.begin(), counts.end()), counts.end());
  return fmt::format("{}", fmt::join(counts, ", "));
}

[[noreturn]] void refuse_count(std::size_t count, const LayoutSet& layouts, const Spot& where) {
  if (count == hand_point_count) {
    refuse(where, Fault::not_a_film,
           "has 21 points a person, which are those of a hand, without a body",
           "export the body's points too");
  }
  refuse(where, Fault::not_a_film,
         fmt::format("has {} points a person; known are sets of {}", count, known_counts(layouts)),
         "say in a file under layouts in the profiles folder which point is which joint, or " +
             std::string(plain_remedy));
}

/// The layouts that a list of `count` points may be in, likeliest first where the form knows.
struct Candidates {
  std::vector<const Layout*> layouts;
  bool ranked = false;
};

Candidates candidates_for(const RawFilm& film, std::size_t count, const LayoutSet& layouts) {
  Candidates found;
  for (const auto name : film.layouts) {
    const Layout* layout = layouts.find(name);
    if (layout != nullptr && layout->size() == count) found.layouts.push_back(layout);
  }
  found.ranked = !found.layouts.empty();
  if (!found.ranked) found.layouts = layouts.of_size(count);
  return found;
}

const Layout& layout_asked_for(const std::string& name, std::size_t count, const LayoutSet& layouts,
                               const Spot& where) {
  const Layout* layout = layouts.find(name);
  if (layout == nullptr) {
    std::vector<std::string_view> names;
    for (const Layout& each : layouts.all()) names.push_back(each.name);
    const std::string near = nearest(name, names);
    refuse(where, Fault::bad_value, "there is no layout " + rangecheck::quoted(name),
           near.empty() ? "see the files under layouts in the profiles folder"
                        : "did you mean " + near + "?");
  }
  if (layout->size() != count) {
    refuse(where, Fault::disagreement,
           fmt::format("has {} points a person, and the layout {} that the submission names has {}",
                       count, name, layout->size()),
           "correct layout in submission.yaml, or leave it out");
  }
  return *layout;
}

/// How much likelier to be a body one layout has to be than another.
constexpr double clearly = 0.85;
/// The same against the layout that the form is usually written with.
constexpr double far_clearly = 0.7;

Chosen choose_by_body(const RawFilm& film, PointsOf list, const Candidates& candidates,
                      const Spot& where) {
  struct Scored {
    const Layout* layout;
    double unlikeness;
  };
  std::vector<Scored> scored;
  for (const Layout* layout : candidates.layouts) {
    scored.push_back({layout, unlikeness_to_body(film, list, layout->points)});
  }
  const Scored usual = scored.front();
  std::stable_sort(scored.begin(), scored.end(),
                   [](const Scored& a, const Scored& b) { return a.unlikeness < b.unlikeness; });
  const Scored best = scored.front();
  if (candidates.ranked && best.unlikeness >= far_clearly * usual.unlikeness) {
    return chosen(*usual.layout);
  }
  const Message note{"reading.order",
                     {{"points", best.layout->size()}, {"order", best.layout->name}}};
  if (candidates.ranked || best.unlikeness < clearly * scored[1].unlikeness) {
    return chosen(*best.layout, note);
  }
  refuse(where, Fault::not_a_film,
         fmt::format("has {} points a person, whose order may be {} or {}", best.layout->size(),
                     best.layout->name, scored[1].layout->name),
         fmt::format("add layout: {}, or the one that is right, to this view in submission.yaml",
                     best.layout->name));
}

}  // namespace

bool names_a_body(const std::vector<std::string>& names) {
  return body_joints(names, joints_named(names)) >= fewest_joints;
}

Chosen choose_layout(const RawFilm& film, PointsOf list, const ReadOptions& options,
                     const Spot& where) {
  const LayoutSet& layouts = options.layouts == nullptr ? shipped_layouts() : *options.layouts;
  if (!film.names.empty()) {
    auto points = joints_named(film.names);
    if (film.partial || film.settled) return {std::move(points), 0, film.estimator, ""};
    const auto body = body_joints(film.names, points);
    if (body >= fewest_joints) return chosen_by_name(film, list, std::move(points), layouts);
    if (options.layout.empty()) refuse_names(film, points, body, where);
    return chosen(layout_asked_for(options.layout, film.names.size(), layouts, where));
  }
  const std::size_t count = count_in(film, list, where);
  if (!options.layout.empty()) {
    return chosen(layout_asked_for(options.layout, count, layouts, where));
  }
  const Candidates candidates = candidates_for(film, count, layouts);
  if (candidates.layouts.empty()) refuse_count(count, layouts, where);
  if (candidates.layouts.size() == 1) return chosen(*candidates.layouts.front());
  return choose_by_body(film, list, candidates, where);
}

}  // namespace rangecheck::intake
