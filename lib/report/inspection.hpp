// SPDX-License-Identifier: MIT
// What there is to say of one landmark file, apart from any student.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "grade/filming.hpp"
#include "intake/submission.hpp"
#include "motion/film_motion.hpp"

namespace rangecheck::report {

struct Inspection {
  std::string file;  ///< name only
  std::string form;  ///< words: what the file is written in
  std::optional<intake::ImageSize> image;
  bool image_is_stand_in = false;  ///< the file does not say it
  std::size_t frames = 0;
  std::map<std::size_t, std::size_t> frames_with;  ///< so many people: in so many frames
  std::optional<double> file_rate_hz;              ///< as the file says
  bool confidence_given = true;
  std::vector<Message> notes;  ///< from reading the file on

  intake::View view = intake::View::face_on;
  std::string view_from;  ///< who says so: "given", "told by the feet", …
  /// Of who the golfer is, 0..1; nothing when there is nobody else to be taken for the golfer.
  std::optional<double> golfer_certainty;
  std::string golfer_fault;  ///< why there is no golfer to follow; nothing of the below then
  std::string still_fault;   ///< why there is no still address; no swing then
  struct Still {
    std::size_t first = 0, last = 0;  ///< 1-based, of the frames
  };
  std::optional<Still> still;

  /// A position of the swing; not found: why.
  struct Moment {
    Position position;
    std::optional<motion::PositionTime::Found> found;
    std::size_t frame = 0;  ///< nearest, as the file numbers it
    std::string reason;
  };
  std::vector<Moment> moments;  ///< none where the film shows no swing

  struct Landmark {
    LandmarkId id;
    double frames_share = 0, confidence = 0;
    std::optional<double> jitter_u_px;
  };
  std::vector<Landmark> landmarks;
  struct Showing {
    std::string what;  ///< region, or what is missing
    std::vector<std::string> rules;
  };
  std::vector<Showing> can_show, cannot_show;
  std::optional<grade::FilmQuality> quality;
};

/// For people, 80 columns where words allow.
std::string inspection_text(const Inspection& inspection);

/// For programs, one document of its own form; the key `quality` is `film` of result.schema.json.
std::string inspection_json(const Inspection& inspection, std::optional<int> indent = 2);

}  // namespace rangecheck::report
