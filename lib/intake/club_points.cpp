// SPDX-License-Identifier: MIT
#include "intake/club_points.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

#include "base/text.hpp"
#include "base/yaml.hpp"
#include "intake/assemble.hpp"
#include "intake/choose_club.hpp"
#include "intake/club_forms.hpp"
#include "intake/frame_match.hpp"
#include "intake/missing.hpp"
#include "intake/shipped.hpp"

namespace rangecheck::intake {
namespace {

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

// ------------------------------------------------------------------------------ names

/// Letters and digits in small: "Grip_End" and "grip end" are one.
std::string bare(std::string_view name) {
  std::string out;
  for (const char c : name) {
    if (std::isalnum(static_cast<unsigned char>(c))) out += lower(std::string_view(&c, 1));
  }
  return out;
}

std::map<std::string, Joint> all_names() {
  std::map<std::string, Joint> names;
  for (std::size_t i = 0; i < club_joint_count; ++i) {
    names[bare(key_of(club_joint(i)))] = club_joint(i);
  }
  const auto document = yaml::parse(std::string(shipped_names()), "names.yaml");
  if (!document) return names;
  for (const auto& entry : (*document)["of-a-club"]) {
    const auto joint = find_joint(entry.second.Scalar());
    if (joint && is_of_club_or_ball(*joint)) names[bare(entry.first.Scalar())] = *joint;
  }
  return names;
}

// ------------------------------------------------------------------------------ reading

/// For each name of the file, the joint that it means.
std::vector<std::optional<Joint>> joints_of(const RawFilm& raw, const Spot& where) {
  const std::string known = "points are " + club_joint_names();
  if (raw.names.empty()) {
    refuse(where, Fault::not_a_film, "has no names that tell club from ball",
           "write it in a form in which points carry names; " + known);
  }
  std::vector<std::optional<Joint>> joints;
  for (const auto& name : raw.names) {
    joints.push_back(club_point_named(name));
  }
  if (std::none_of(joints.begin(), joints.end(), [](const auto& joint) { return joint; })) {
    std::vector<std::string> names;
    constexpr std::size_t most = 6;
    for (std::size_t i = 0; i < std::min(raw.names.size(), most); ++i) {
      names.push_back(rangecheck::quoted(raw.names[i]));
    }
    refuse(where, Fault::not_a_film,
           "has no point of a club or a ball, only " + listed(names) +
               (raw.names.size() > most ? " and others" : ""),
           known);
  }
  return joints;
}

/// How far a file's numbers have to be stretched to be pixels of the film.
struct Stretch {
  double x = 1, y = 1;
  double bottom_px = 0;  ///< with y counted up: the height of the picture
  bool up = false;

  ImagePoint operator()(ImagePoint at) const {
    const double y_px = y * at.y_px;
    return {x * at.x_px, up ? bottom_px - y_px : y_px};
  }
};

/// Fractions where no place is beyond a picture of a few pixels, as for people.
Stretch stretch_of(const RawFilm& raw, const ClubFilm& club, ImageSize image, const Spot& where) {
  double least = 0, most = 0;
  for (const ClubFrame& frame : club.frames) {
    for (const FoundClub& found : frame.found) {
      for (const auto& point : found.points) {
        if (!point) continue;
        least = std::min({least, point->at.x_px, point->at.y_px});
        most = std::max({most, point->at.x_px, point->at.y_px});
      }
    }
  }
  Stretch out;
  out.up = raw.y_up;
  out.bottom_px = image.height_px;
  if (raw.fractions.value_or(least > -2 && most <= 3)) {
    out.x = image.width_px;
    out.y = image.height_px;
  } else if (raw.image) {
    out.x = image.width_px / raw.image->width_px;
    out.y = image.height_px / raw.image->height_px;
    if (std::abs(out.x / out.y - 1) > 0.02) {
      refuse(
          where.at("image"), Fault::disagreement,
          fmt::format("is of a picture of {} × {}, the film of one of {} × {}", raw.image->width_px,
                      raw.image->height_px, image.width_px, image.height_px),
          "run the detector on the film itself");
    }
  }
  return out;
}

std::vector<FoundClub> found_in(const RawFrame& raw,
                                const std::vector<std::optional<Joint>>& joints,
                                const Scoring& scoring) {
  std::vector<FoundClub> all;
  for (const RawPerson& person : raw.people) {
    FoundClub found;
    bool any = false;
    for (std::size_t i = 0; i < std::min(person.body.size(), joints.size()); ++i) {
      const auto confidence = confidence_of(person.body[i], scoring, false);
      if (!joints[i] || !confidence) continue;
      found[*joints[i]] = Sighting{{person.body[i].x, person.body[i].y}, *confidence};
      any = true;
    }
    if (any) all.push_back(found);
  }
  return all;
}

Scoring scoring_of(const RawFilm& raw) {
  ZeroScores zeros;
  for (const RawFrame& frame : raw.frames) {
    for (const RawPerson& person : frame.people) zeros.add(person.body, false);
  }
  Scoring scoring;
  scoring.kind = raw.score;
  scoring.says_nothing = zeros.all() && raw.score != Score::label;
  scoring.settled = raw.settled;
  scoring.full = zeros.most();
  return scoring;
}

ClubFilm read_or_throw(const std::vector<LandmarkText>& files, const Film& film,
                       Handedness handedness) {
  const RawFilm raw = read_as_written(files, club_forms());
  const Spot where(files.front().name);
  const auto joints = joints_of(raw, where);
  const Scoring scoring = scoring_of(raw);
  ClubFilm club{files.front().name, raw.frame_rate_hz, {}};
  bool any = false;
  for (const RawFrame& frame : raw.frames) {
    club.frames.push_back({frame.number, frame.time, found_in(frame, joints, scoring)});
    any = any || !club.frames.back().found.empty();
  }
  if (!any) {
    refuse(where, Fault::not_a_film, "shows neither club nor ball in any frame",
           "run the detector again, or leave club-points out");
  }
  std::stable_sort(club.frames.begin(), club.frames.end(),
                   [](const auto& a, const auto& b) { return a.number < b.number; });
  const Stretch stretch = stretch_of(raw, club, *film.image, where);
  for (ClubFrame& frame : club.frames) {
    for (FoundClub& found : frame.found) {
      for (auto& point : found.points) {
        if (!point) continue;
        point->at = stretch(point->at);
        if (handedness == Handedness::left) {
          point->at.x_px = film.image->width_px - point->at.x_px;
        }
      }
    }
  }
  return club;
}

// ------------------------------------------------------------------------------ laying to people

FrameCount count_of(const Film& film, std::optional<double> frame_rate_hz) {
  FrameCount count{{}, {}, film.frame_rate_hz ? film.frame_rate_hz : frame_rate_hz};
  for (const Frame& frame : film.frames) {
    count.numbers.push_back(frame.number);
    count.times.push_back(frame.time);
  }
  return count;
}

FrameCount count_of(const ClubFilm& club) {
  FrameCount count{{}, {}, club.frame_rate_hz};
  for (const ClubFrame& frame : club.frames) {
    count.numbers.push_back(frame.number);
    count.times.push_back(frame.time);
  }
  return count;
}

/// Whether any was given.
bool give(const FoundClub& found, Person& person) {
  bool any = false;
  for (std::size_t i = 0; i < club_joint_count; ++i) {
    if (!found.points[i]) continue;
    person.image[centre(club_joint(i))] = found.points[i];
    any = true;
  }
  return any;
}

Message words_for(FrameMatch::By by) {
  switch (by) {
    case FrameMatch::By::stamps:
      return {"reading.time-stamps"};
    case FrameMatch::By::rates:
      return {"reading.frame-rates"};
    case FrameMatch::By::numbers:
      break;
  }
  return {"reading.frame-numbers"};
}

Error no_match(const ClubFilm& club, const Film& film) {
  const auto span = [](const auto& frames) {
    return fmt::format("{} frames, {} to {}", frames.size(), frames.front().number,
                       frames.back().number);
  };
  return {Fault::disagreement,
          fmt::format("its frames can't be laid to the film's: it has {}, the film has {}",
                      span(club.frames), span(film.frames)),
          Place{.file = club.file, .line = {}, .frame = {}, .key = ""},
          "run the detector on the very film that the landmarks were read from, or give both files "
          "time stamps or a frame-rate"};
}

}  // namespace

std::optional<Joint> club_point_named(std::string_view name) {
  static const std::map<std::string, Joint> names = all_names();
  const auto found = names.find(bare(name));
  return found == names.end() ? std::nullopt : std::optional(found->second);
}

std::string club_joint_names() {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < club_joint_count; ++i) names.emplace_back(key_of(club_joint(i)));
  return listed(names);
}

Result<ClubFilm> read_club_film(const std::vector<LandmarkText>& files, const Film& film,
                                Handedness handedness) {
  try {
    return read_or_throw(files, film, handedness);
  } catch (const Refusal& refusal) {
    return refusal.error;
  }
}

std::optional<Error> add_club_film(const ClubFilm& club, std::optional<double> frame_rate_hz,
                                   Film& film) {
  const auto match = match_frames(count_of(film, frame_rate_hz), count_of(club));
  if (!match) return no_match(club, film);
  std::vector<const std::vector<FoundClub>*> found;
  for (const auto& index : match->other) {
    found.push_back(index ? &club.frames[*index].found : nullptr);
  }
  const ClubChoice choice(film, found);
  std::size_t frames = 0;
  for (std::size_t f = 0; f < film.frames.size(); ++f) {
    bool any = false;
    for (Person& person : film.frames[f].people) any = give(choice.of(person, f), person) || any;
    frames += any;
  }
  film.notes.push_back({"reading.club-file",
                        {{"file", club.file},
                         {"frames", frames},
                         {"all", film.frames.size()},
                         said("by", words_for(match->by))}});
  return std::nullopt;
}

std::optional<Error> add_clicks(const std::vector<Click>& clicks,
                                std::optional<double> frame_rate_hz, Handedness handedness,
                                Film& film) {
  const FrameCount count = count_of(film, frame_rate_hz);
  const auto error = [](const Click& click, std::string what, std::string remedy) {
    return Error{Fault::bad_value, std::move(what), click.place, std::move(remedy)};
  };
  std::size_t points = 0;
  for (const Click& click : clicks) {
    std::optional<std::size_t> at;
    if (click.frame) {
      const auto found = std::find(count.numbers.begin(), count.numbers.end(), *click.frame);
      if (found != count.numbers.end())
        at = static_cast<std::size_t>(found - count.numbers.begin());
    } else {
      at = frame_at(count, *click.time);
    }
    if (!at) {
      return error(
          click, "the film has no such frame",
          fmt::format("its frames are {} to {}", count.numbers.front(), count.numbers.back()));
    }
    Frame& frame = film.frames[*at];
    if (frame.people.empty()) {
      return error(click, "the film shows nobody in this frame", "mark another frame");
    }
    for (const auto& [joint, written] : click.points) {
      ImagePoint place = written;
      if (handedness == Handedness::left) place.x_px = film.image->width_px - place.x_px;
      for (Person& person : frame.people) person.image[centre(joint)] = Sighting{place, 1};
      ++points;
    }
  }
  if (points > 0) {
    film.notes.push_back({"reading.clicks",
                          {said("points", {"reading.points-marked", {{"count", points}}}),
                           {"count", clicks.size()}}});
  }
  return std::nullopt;
}

}  // namespace rangecheck::intake
