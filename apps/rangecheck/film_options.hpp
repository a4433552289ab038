// SPDX-License-Identifier: MIT
// Options of the commands that read one film.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "intake/landmarks.hpp"

namespace rangecheck::app {

/// What the parser collects.
struct FilmOptions {
  std::string file, image, layout, profiles;
};

/// Adds FILE, --image, --layout and --profiles.
void add_film_options(CLI::App& parser, FilmOptions& options);

/// Point sets: the shipped ones, and those of the profiles folder where one is named.
Result<intake::LayoutSet> layouts_of(const std::string& profiles);

/// Checked: a picture size that is one, a point set that is known. `layouts` has to outlive it.
Result<intake::ReadOptions> read_options(const FilmOptions& options,
                                         const intake::LayoutSet& layouts);

/// Intake's remedies speak of submission.yaml; here an option says the same.
Error with_options(Error error);

}  // namespace rangecheck::app
