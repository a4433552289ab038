// SPDX-License-Identifier: MIT
#include "inbox/given.hpp"

#include <algorithm>
#include <string>
#include <thread>

#include "base/text.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

namespace fs = std::filesystem;

Result<Taught> read_taught(const fs::path& folder, const std::optional<fs::path>& roster_file) {
  auto profiles = grade::load_profiles(folder);
  if (!profiles) return profiles.error();
  auto layouts = intake::load_layouts(folder / "layouts");
  if (!layouts) return layouts.error();
  Taught taught{std::move(*profiles), std::move(*layouts), {}, {}};
  for (const auto language : shipped_languages()) {
    auto words = load_words(folder, language);
    if (!words) return words.error();
    if (auto error = report::unknown_words(*words, taught.profiles)) return *error;
    taught.words.emplace(language, *std::move(words));
  }
  if (!roster_file) return taught;
  auto roster = intake::read_roster(*roster_file);
  if (!roster) {
    roster.error().fault = Fault::bad_profile;
    return roster.error();
  }
  taught.roster = std::move(*roster);
  return taught;
}

Result<std::vector<intake::Location>> submissions_in(const fs::path& inbox) {
  auto locations = intake::find_submissions(inbox);
  if (locations) return locations;
  Error& error = locations.error();
  error.fault = Fault::io;
  if (error.where.file.empty()) error.where.file = printable(inbox.string());
  return error;
}

unsigned workers_meant(unsigned asked) {
  return asked > 0 ? asked : std::max(1U, std::thread::hardware_concurrency());
}

Error not_worked_through(const std::exception& thrown) {
  return {Fault::io,
          std::string("could not be worked through: ") + thrown.what(),
          {},
          "please report this, with the submission"};
}

}  // namespace rangecheck::inbox
