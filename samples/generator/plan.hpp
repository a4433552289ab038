// SPDX-License-Identifier: MIT
// The sample inbox, submission by submission.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "generator/crowd.hpp"
#include "generator/writer.hpp"

namespace rangecheck::samples {

enum class WrittenAs {
  plain,
  plain_gzipped,
  coco_17,
  one_file_a_frame,
  points_33,
  points_33_gzipped,
  points_26_gzipped,
  depth_camera_gzipped  ///< in space, as a depth camera has it; of a whole swing only
};

/// How one film is handed in.
struct FilmPlan {
  WrittenAs written_as = WrittenAs::plain;
  bool ball = true, stick = false, camera_notes = false;  ///< what the manifest says of it
  bool club_file = false;             ///< club and ball stand in a detector's file of their own
  std::optional<View> labelled = {};  ///< a label that is wrong
};

enum class Defect { none, truncated_file, misspelt_key };

/// One submission: what is drawn, what is told about it, and how.
struct Sample {
  std::string student, name;
  std::uint64_t seed = 0;  ///< of the drawing
  std::string club = "7-iron", swing = "full";
  Options options = {};
  std::optional<SwingOptions> filmed_swing = {};  ///< a whole swing; its `base` is `options`
  std::vector<FilmPlan> films;                    ///< one for each of options.views
  Hand hand = Hand::right;
  std::string limits = {};         ///< roster
  bool facts_in_manifest = false;  ///< the golfer's facts are there and not in the roster
  std::string more = {};           ///< further lines of the manifest
  double frame_rate_hz = 30;
  bool bystander = false;  ///< a second person in every frame, listed first in every other one
  std::vector<Other> others = {};  ///< more people in the one film of a swing
  bool loose = false;  ///< no folder and no manifest: files named STUDENT_CLUB_SWING_VIEW.json
  Defect defect = Defect::none;

  /// The student's second one with this club.
  bool is_second() const { return static_cast<bool>(options.later); }
  /// As the inbox calls it.
  std::string id() const {
    return loose ? student + "_" + club + "_" + swing
                 : student + "-" + club + (is_second() ? "-again" : "");
  }
};

std::vector<Sample> planned_samples();

}  // namespace rangecheck::samples
