// SPDX-License-Identifier: MIT
// Intake turns bytes into frames: it is the only room that knows JSON dialects and left and right.
// It judges whether a file can be read, not whether the film is any good.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "intake/film.hpp"
#include "intake/layout.hpp"

namespace rangecheck::intake {

enum class Handedness { right, left };

/// One file of landmarks: its bytes and the name errors call it by.
struct LandmarkText {
  std::string name;
  std::string bytes;
};

/// What a submission tells of its film.
struct ReadOptions {
  std::optional<ImageSize> image;  ///< normalised coordinates need it and are refused without
  Handedness handedness = Handedness::right;
  const LayoutSet* layouts = nullptr;  ///< nullptr: the shipped ones
  std::string layout = {};             ///< name of the point set, where the file can't tell it
};

/// Reads one film from one file, or from many (one frame a file, ordered by the numbers in their
/// names). The dialect is told by structure, never by file name. For a left-handed golfer every x
/// is mirrored (width − x; without a width: −x) and lead/trail chosen so that lead is the side
/// nearer the target.
Result<Film> read_landmarks(const std::vector<LandmarkText>& files, const ReadOptions& options);
/// The same with the shipped layouts.
Result<Film> read_landmarks(const std::vector<LandmarkText>& files, std::optional<ImageSize> image,
                            Handedness handedness);

/// Of one film, unpacked: three quarters of an hour of one person at 30 Hz, written at length.
inline constexpr std::size_t largest_film = std::size_t{256} << 20;

/// The bytes of a landmark file, or of all frame files in a folder (.json or .jsonl, with or
/// without .gz; hidden files are skipped). `name` is what errors call `path`. At most
/// `largest_film` in all.
Result<std::vector<LandmarkText>> read_landmark_files(const std::filesystem::path& path,
                                                      const std::string& name);

/// What `rangecheck inspect` and README list: one line for each dialect that is understood.
std::vector<std::string> known_dialects();

}  // namespace rangecheck::intake
