// SPDX-License-Identifier: MIT
// What says whose a film is: submission.yaml with the clicks in it, roster.csv, names of loose
// files. Every input is read as each of them, since none is taken for another for long.
#include "base/text.hpp"
#include "fuzz.hpp"
#include "intake/loose_name.hpp"
#include "intake/manifest.hpp"
#include "made_up_film.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

void hold_view(const ManifestView& view) {
  fuzz::hold(!view.landmarks.empty(), "a view names its film");
  if (view.image) fuzz::hold_within({view.image->width_px, view.image->height_px}, 20000);
  if (view.frame_rate_hz) fuzz::hold_within({*view.frame_rate_hz}, 10000);
  if (view.ball) fuzz::hold_within({view.ball->x_px, view.ball->y_px}, 1e308);
  for (const Handedness hand : {Handedness::right, Handedness::left}) {
    Film film = fuzz::made_up_film();
    if (const auto error = add_clicks(view.clicks, view.frame_rate_hz, hand, film))
      fuzz::hold_error(*error, "submission.yaml");
  }
}

void read_as_manifest(const std::string& text) {
  const auto manifest = read_manifest(text, "submission.yaml");
  const auto again = read_manifest(text, "submission.yaml");
  fuzz::hold(bool(manifest) == bool(again), "reading is deterministic");
  if (!manifest) {
    fuzz::hold_error(manifest.error(), "submission.yaml");
    fuzz::hold(to_string(manifest.error()) == to_string(again.error()), "so are errors");
    return;
  }
  fuzz::hold(!why_unsafe(manifest->student), "a student's id is one");
  fuzz::hold(manifest->views.size() == 1 || manifest->views.size() == 2, "one film or two");
  for (const auto& view : manifest->views) hold_view(view);
  for (const auto& [name, value] : manifest->readings) fuzz::hold_within({value.si}, 1.6);
}

void read_as_roster(std::string_view text) {
  static const fuzz::Folder folder;
  const auto roster = read_roster(folder.write("roster.csv", text));
  if (!roster) return fuzz::hold_error(roster.error(), "roster.csv");
  for (const auto& [id, golfer] : *roster) {
    fuzz::hold(id == golfer.id && !why_unsafe(id), "a student's id is one");
    fuzz::hold(printable(golfer.name) == golfer.name, "a name is text");
    if (golfer.stature) fuzz::hold_within({golfer.stature->in_metres()}, 2.31);
    if (golfer.foot) fuzz::hold_within({golfer.foot->value.in_metres()}, 0.36);
  }
}

void read_as_name(std::string_view text) {
  const auto name = parse_loose_name(text);
  if (!name) return;
  fuzz::hold(is_landmark_name(text), "a loose film has the name of a film");
  fuzz::hold(text.starts_with(name->stem) && name->stem.starts_with(name->student),
             "what a name says stands in it");
  fuzz::hold(!name->club.empty() && is_swing(name->swing), "a loose name has its parts");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(fuzz::text_of(data, size));
  read_as_manifest(text);
  read_as_roster(text);
  read_as_name(text);
  return 0;
}
