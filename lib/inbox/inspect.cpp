// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/publish.hpp"
#include "base/text.hpp"
#include "inbox/inbox.hpp"
#include "measure/measurement.hpp"
#include "motion/film_motion.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

// A landmark in fewer of the frames than this is not one to build a measure on.
constexpr double enough_frames_share = 0.5;

/// What a film shows of one landmark.
struct Shown {
  std::size_t frames = 0;
  double confidence_sum = 0;
};

Result<std::vector<intake::LandmarkText>> read_texts(const fs::path& path) {
  std::vector<fs::path> files = {path};
  std::error_code failed;
  if (fs::is_directory(path, failed)) {
    files.clear();
    for (const auto& entry : fs::directory_iterator(path, failed)) {
      const std::string name = entry.path().filename().string();
      const bool landmarks = name.ends_with(".json") || name.ends_with(".json.gz");
      if (landmarks && name.front() != '.') files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
  }
  std::vector<intake::LandmarkText> texts;
  for (const auto& file : files) {
    const std::string name = file.filename().string();
    auto bytes = read_file(file, name);
    if (!bytes) return bytes.error();
    texts.push_back({name, std::move(*bytes)});
  }
  if (!texts.empty()) return texts;
  Error error{Fault::not_a_film, "no .json or .json.gz file in this folder", {}, ""};
  error.where.file = printable(path.filename().string());
  return error;
}

std::string line(std::string_view label, std::string_view text) {
  return fmt::format("{:<12}{}\n", label, text);
}

std::string people_text(const intake::Film& film) {
  std::map<std::size_t, std::size_t> frames_with;
  for (const auto& frame : film.frames) ++frames_with[frame.people.size()];
  std::string text;
  for (const auto& [people, frames] : frames_with) {
    text += fmt::format("{}{} in {} frame{}", text.empty() ? "" : ", ",
                        people == 0 ? "nobody" : std::to_string(people), frames,
                        frames == 1 ? "" : "s");
  }
  return text;
}

std::string film_text(const intake::Film& film, std::string_view image_note) {
  std::string text = line("form", film.dialect);
  text += line("picture", film.image ? fmt::format("{:.0f} x {:.0f} px{}", film.image->width_px,
                                                   film.image->height_px, image_note)
                                     : "size not given");
  text += line("frames", std::to_string(film.frames.size()));
  text += line("people", people_text(film));
  text += line("frame rate",
               film.frame_rate_hz ? fmt::format("{:g} Hz", *film.frame_rate_hz) : "not given");
  text += line("confidence", film.confidence_given ? "given" : "not given, taken as 1");
  return text;
}

LandmarkMap<Shown> count_landmarks(const pose::Track& track) {
  LandmarkMap<Shown> shown;
  for (const auto& frame : track.frames) {
    if (!frame.person) continue;
    const auto& sightings = frame.person->image.values();
    for (std::size_t i = 0; i < sightings.size(); ++i) {
      if (!sightings[i]) continue;
      auto& entry = shown.values()[i];
      if (!entry) entry.emplace();
      ++entry->frames;
      entry->confidence_sum += sightings[i]->confidence;
    }
  }
  return shown;
}

std::string landmarks_text(const LandmarkMap<Shown>& shown, std::size_t frames,
                           const motion::Still* still) {
  std::string text = fmt::format("\n{:<20}{:>8}{:>12}{:>14}\n", "landmark", "frames", "confidence",
                                 "jitter u (px)");
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    if (!shown[id]) continue;
    const auto count = static_cast<double>(shown[id]->frames);
    const bool has_still = still && still->points.has(id);
    text +=
        fmt::format("{:<20}{:>6.0f} %{:>12.2f}{:>14}\n", name_of(id),
                    100 * count / static_cast<double>(frames), shown[id]->confidence_sum / count,
                    has_still ? fmt::format("{:.2f}", still->points[id]->jitter_u_px) : "-");
  }
  return text;
}

/// The needs of `rule` that the film does not show in enough frames, as words.
std::string missing_needs(const measure::Rule& rule, const LandmarkMap<Shown>& shown,
                          std::size_t frames) {
  std::set<std::string> joints;
  for (const LandmarkId id : rule.needs) {
    const double share =
        shown[id] ? static_cast<double>(shown[id]->frames) / static_cast<double>(frames) : 0;
    if (share < enough_frames_share) joints.insert(name_of(LandmarkId{Side::centre, id.joint}));
  }
  std::string words;
  for (const auto& joint : joints) words += (words.empty() ? "no " : ", ") + joint;
  return words;
}

std::string indented(std::string_view label, const std::vector<std::string>& ids) {
  std::string text = fmt::format("  {}:", label);
  std::size_t used = text.size();
  for (const auto& id : ids) {
    if (used + 1 + id.size() > 80) {
      text += "\n   ";
      used = 3;
    }
    text += " " + id;
    used += 1 + id.size();
  }
  return text + "\n";
}

std::string can_show_text(const LandmarkMap<Shown>& shown, std::size_t frames) {
  std::map<measure::Region, std::vector<std::string>> can;
  std::map<std::string, std::vector<std::string>> cannot;
  for (const measure::Rule* rule : measure::catalogue()) {
    if (rule->is_timing()) continue;
    const std::string missing = missing_needs(*rule, shown, frames);
    (missing.empty() ? can[rule->region] : cannot[missing]).emplace_back(rule->id);
  }
  std::string text = "\nThese landmarks can show, if the camera stands where it shows it well:\n";
  for (const auto& [region, ids] : can) text += indented(measure::name_of(region), ids);
  if (can.empty()) text += "  nothing\n";
  if (cannot.empty()) return text;
  text += "They can't show directly:\n";
  for (const auto& [missing, ids] : cannot) text += indented(missing, ids);
  return text;
}

/// "1.234 s (frame 38) +- 0.010 s", or why there is none.
std::string moment_text(const motion::PositionTime& position, const motion::Clock& clock,
                        const pose::Track& track) {
  if (!position.found) return "not found: " + position.reason;
  return fmt::format("{:.3f} s ± {:.3f} s, frame {}, from the {}",
                     position.found->time.in_seconds(),
                     position.found->standard_uncertainty.in_seconds(),
                     track.frames[clock.frame_at(position.found->time)].number,
                     position.found->from_club ? "club" : "hands");
}

std::string swing_text(const motion::FilmMotion& motion, const pose::Track& track) {
  if (!motion.swing) return line("swing", "none found");
  std::string text;
  for (const Position position : all_positions) {
    text += fmt::format("{:<4}{:<28}{}\n", alias_of(position), title_of(position),
                        moment_text((*motion.swing)[position], motion.clock, track));
  }
  return "\n" + text;
}

std::string golfer_text(const intake::Film& film) {
  const intake::FilmedView view{.view = intake::View::face_on,
                                .film = film,
                                .frame_rate_hz = std::nullopt,
                                .ball = std::nullopt,
                                .target_line = std::nullopt,
                                .camera = {}};
  const auto track = pose::follow_golfer(view);
  if (!track) return line("golfer", "not found: " + to_string(track.error()));
  const auto motion = motion::film_motion(*track, film.frame_rate_hz, "full");
  std::string text =
      motion ? line("still", fmt::format("frames {} to {} of {}", motion->address.first_frame + 1,
                                         motion->address.last_frame + 1, track->frames.size()))
             : line("still", "no: " + to_string(motion.error()));
  for (const auto& note : track->notes) text += line("note", note);
  if (motion) {
    for (const auto& note : motion->notes) text += line("note", note);
    text += swing_text(*motion, *track);
  }
  const auto shown = count_landmarks(*track);
  return text + landmarks_text(shown, track->frames.size(), motion ? &motion->address : nullptr) +
         can_show_text(shown, track->frames.size());
}

}  // namespace

Result<std::string> inspect(const fs::path& file, std::optional<intake::ImageSize> image) {
  const auto texts = read_texts(file);
  if (!texts) return texts.error();
  auto film = intake::read_landmarks(*texts, image, intake::Handedness::right);
  std::string_view image_note;
  if (!film && !image) {
    // Coordinates given as shares of the picture need its size; a stand-in still shows the rest.
    constexpr intake::ImageSize stand_in{1000, 1000};
    auto with_stand_in = intake::read_landmarks(*texts, stand_in, intake::Handedness::right);
    if (!with_stand_in) return film.error();
    film = std::move(with_stand_in);
    image_note = " (a stand-in: the file does not say it)";
  }
  if (!film) return film.error();
  // "folder/" has an empty file name; its parent is the folder itself.
  const fs::path named = file.has_filename() ? file : file.parent_path();
  return printable(named.filename().string()) + "\n" + film_text(*film, image_note) +
         golfer_text(*film);
}

}  // namespace rangecheck::inbox
