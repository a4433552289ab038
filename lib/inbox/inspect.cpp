// SPDX-License-Identifier: MIT
#include "inbox/inspect.hpp"

#include <algorithm>
#include <set>

#include "base/text.hpp"
#include "inbox/filmed.hpp"
#include "measure/measurement.hpp"
#include "motion/view_told.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;
using report::Inspection;

// A landmark in fewer of the frames than this is not one to build a measure on.
constexpr double enough_frames_share = 0.5;

/// A stand-in for the picture where the file does not say its size: shares of it still show the
/// rest.
constexpr intake::ImageSize stand_in{1000, 1000};

Result<intake::Film> read(const InspectJob& job, const std::string& name, bool& is_stand_in) {
  const auto texts = intake::read_landmark_files(job.file, name);
  if (!texts) return texts.error();
  auto film = intake::read_landmarks(*texts, job.how);
  if (film || job.how.image) return film;
  intake::ReadOptions with_stand_in = job.how;
  with_stand_in.image = stand_in;
  auto again = intake::read_landmarks(*texts, with_stand_in);
  is_stand_in = bool(again);
  return again ? again : film;
}

std::vector<Inspection::Landmark> landmarks_of(const pose::Track& track,
                                               const motion::Still* still) {
  std::vector<Inspection::Landmark> out;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    double frames = 0, confidence = 0;
    for (const auto& frame : track.frames) {
      if (!frame.person || !frame.person->image.values()[i]) continue;
      ++frames;
      confidence += frame.person->image.values()[i]->confidence;
    }
    if (frames == 0) continue;
    Inspection::Landmark one{.id = landmark_at(i),
                             .frames_share = frames / static_cast<double>(track.frames.size()),
                             .confidence = confidence / frames,
                             .jitter_u_px = std::nullopt};
    if (still && still->points.has(one.id)) one.jitter_u_px = still->points[one.id]->jitter_u_px;
    out.push_back(one);
  }
  return out;
}

/// The needs of `rule` that the film does not show in enough frames, as words.
std::string missing_needs(const measure::Rule& rule,
                          const std::vector<Inspection::Landmark>& landmarks) {
  std::set<std::string> joints;
  for (const LandmarkId id : rule.needs) {
    const auto shown = std::ranges::find(landmarks, id, &Inspection::Landmark::id);
    if (shown == landmarks.end() || shown->frames_share < enough_frames_share)
      joints.insert(name_of(LandmarkId{Side::centre, id.joint}));
  }
  std::string words;
  for (const auto& joint : joints) words += (words.empty() ? "no " : ", ") + joint;
  return words;
}

void tell_what_it_can_show(Inspection& out) {
  std::map<measure::Region, std::vector<std::string>> can;
  std::map<std::string, std::vector<std::string>> cannot;
  for (const measure::Rule* rule : measure::catalogue()) {
    if (rule->is_timing()) continue;
    const std::string missing = missing_needs(*rule, out.landmarks);
    (missing.empty() ? can[rule->region] : cannot[missing]).emplace_back(rule->id);
  }
  for (auto& [region, ids] : can)
    out.can_show.push_back({std::string(measure::name_of(region)), std::move(ids)});
  for (auto& [missing, ids] : cannot) out.cannot_show.push_back({missing, std::move(ids)});
}

/// The golfer, followed as of the view that is asked for or that the film tells.
Result<pose::Track> follow(const InspectJob& job, intake::FilmedView& view, Inspection& out) {
  view.view = job.view.value_or(intake::View::face_on);
  auto track = pose::follow_golfer(view);
  if (!track) return track;
  const auto told = motion::view_told(*track);
  if (job.view) {
    out.view_from = "given";
    if (told.view && *told.view != *job.view)
      out.notes.push_back({"view.feet-look", {said("film", intake::film_as_message(*told.view))}});
  } else if (told.view) {
    out.view_from = "told by the feet";
    if (*told.view != view.view) {
      view.view = *told.view;
      track = pose::follow_golfer(view);
    }
  } else {
    out.view_from = "assumed: the feet do not tell";
  }
  if (told.toes_left && view.view == intake::View::down_the_line)
    out.notes.push_back({"view.toes-left"});
  return track;
}

void tell_swing(const motion::FilmMotion& motion, const pose::Track& track, Inspection& out) {
  out.still = {motion.address.first_frame + 1, motion.address.last_frame + 1};
  out.notes.insert(out.notes.end(), motion.notes.begin(), motion.notes.end());
  if (!motion.swing) return;
  for (const Position position : all_positions) {
    const auto& time = (*motion.swing)[position];
    Inspection::Moment moment{position, time.found, 0, in_english(time.reason)};
    if (time.found) moment.frame = track.frames[motion.clock.frame_at(time.found->time)].number;
    out.moments.push_back(std::move(moment));
  }
}

/// Where the camera stood, as far as this film alone tells.
std::optional<posture::CameraSeen> camera_of(const intake::FilmedView& view,
                                             const motion::Still& still) {
  const auto posture =
      posture::estimate_address({.views = {evidence_of(view, still)}, .stature = {}, .foot = {}});
  if (!posture || posture->cameras_seen.empty()) return std::nullopt;
  return posture->cameras_seen.front();
}

void tell_film(const InspectJob& job, intake::FilmedView view, bool is_stand_in, Inspection& out) {
  const auto track = follow(job, view, out);
  out.view = view.view;
  if (!track) {
    out.golfer_fault = to_string(track.error());
    return;
  }
  out.notes.insert(out.notes.end(), track->notes.begin(), track->notes.end());
  if (track->people_seen > 1) out.golfer_certainty = track->certainty;
  const auto rate = job.rate_hz ? job.rate_hz : view.film.frame_rate_hz;
  const auto motion = motion::film_motion(*track, rate, job.swing);
  std::optional<posture::CameraSeen> camera;
  // In a picture of unknown shape nothing is square.
  if (is_stand_in) view.film.image.reset();
  if (motion) {
    tell_swing(*motion, *track, out);
    if (view.film.image) camera = camera_of(view, motion->address);
  } else {
    out.still_fault = to_string(motion.error());
  }
  if (const auto clock = motion::clock_of(*track, rate))
    out.quality = grade::judge_film(
        job.filming, view.view,
        motion::film_facts(*track, view.film, *clock, motion ? &*motion : nullptr), camera);
  out.landmarks = landmarks_of(*track, motion ? &motion->address : nullptr);
  tell_what_it_can_show(out);
}

}  // namespace

Result<Inspection> inspect(const InspectJob& job) {
  // "folder/" has an empty file name; its parent is the folder itself.
  const fs::path named = job.file.has_filename() ? job.file : job.file.parent_path();
  Inspection out;
  out.file = printable(named.filename().string());
  auto film = read(job, out.file, out.image_is_stand_in);
  if (!film) return film.error();
  out.form = film->dialect;
  out.image = film->image;
  out.frames = film->frames.size();
  for (const auto& frame : film->frames) ++out.frames_with[frame.people.size()];
  out.file_rate_hz = film->frame_rate_hz;
  out.confidence_given = film->confidence_given;
  out.notes = film->notes;
  tell_film(job,
            {.view = intake::View::face_on,
             .film = *std::move(film),
             .frame_rate_hz = job.rate_hz,
             .ball = std::nullopt,
             .target_line = std::nullopt,
             .camera = {}},
            out.image_is_stand_in, out);
  return out;
}

}  // namespace rangecheck::inbox
