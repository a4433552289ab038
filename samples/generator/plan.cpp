// SPDX-License-Identifier: MIT
#include "generator/plan.hpp"

namespace rangecheck::samples {
namespace {

constexpr std::pair<int, int> portrait{1080, 1920}, landscape{1920, 1080},
    small_portrait{720, 1280};

Options usual(std::pair<int, int> image_px = portrait) {
  Options options;
  options.placement.image_px = image_px;
  options.placement.distance_m = {2.6, 4.0};
  options.placement.height_m = {0.7, 1.4};
  options.detector.frames = 10;
  return options;
}

Options with_setup(Setup setup) {
  Options options = usual();
  options.setup = setup;
  return options;
}

Options with_skeleton(Skeleton skeleton) {
  Options options = usual();
  options.detector.skeleton = skeleton;
  return options;
}

Options filmed_as(std::vector<View> views) {
  Options options = usual();
  options.views = std::move(views);
  return options;
}

Options preset_style() {
  Options options = usual();
  options.family = Family::preset;
  return options;
}

/// After a month's work on what the report had first.
Options who_bends_more(Options options) {
  options.later = [](Address& address) { address.forward_bend_deg += 8; };
  return options;
}

Options junior() {
  Options options = usual(small_portrait);
  options.age = Age::junior;
  return options;
}

/// Two cameras at once, on their sides.
Options same_swing() {
  Options options = usual(landscape);
  options.same_swing = true;
  return options;
}

/// On the grass against a bag: low, leaning, off the line, and in bad light.
Options bad_camera() {
  Options options = usual(small_portrait);
  options.placement.height_m = {0.20, 0.35};
  options.placement.bearing_sd_deg = 14;
  options.placement.roll_sd_deg = 5;
  options.detector.bias_level = 1.5;
  options.detector.jitter_mm = {6, 8};
  options.detector.confidence = {0.25, 0.55};
  options.detector.hidden_confidence = {0.05, 0.2};
  return options;
}

/// The landmark file brings ball and club along, as it has no manifest that could.
Options with_club_in_film() {
  Options options = usual();
  options.detector.club = true;
  return options;
}

Options one_view(Setup setup, View view) {
  Options options = with_setup(setup);
  options.views = {view};
  return options;
}

/// Far enough away for the whole swing.
Options of_swing(Options options) {
  options.placement.distance_m = {3.2, 4.4};
  return options;
}

SwingOptions full_swing(double rate_hz) {
  SwingOptions swing;
  swing.rate_hz = rate_hz;
  return swing;
}

SwingOptions with_club(SwingOptions swing) {
  swing.club = true;
  return swing;
}

SwingOptions short_swing(SwingKind kind, double rate_hz) {
  SwingOptions swing = full_swing(rate_hz);
  swing.kind = kind;
  return swing;
}

SwingOptions begun_too_late(double rate_hz) {
  SwingOptions swing = full_swing(rate_hz);
  swing.trimmed_start = true;
  return swing;
}

const FilmPlan plain{};
const FilmPlan with_everything{.stick = true, .camera_notes = true};

std::vector<FilmPlan> both(FilmPlan plan) { return {plan, plan}; }

/// Complete submissions, from the fullest to those that leave something out.
std::vector<Sample> ordinary() {
  return {
      {.student = "s-0401",
       .name = "Mara",
       .seed = 2128,
       .options = usual(),
       .films = both(with_everything)},
      {.student = "s-0402",
       .name = "Jonas",
       .seed = 287,
       .options = preset_style(),
       .films = both(plain),
       .more = "observed:\n  lead-thumb: trail-side\n  hand-overlap: interlock\n"
               "readings:\n  face-to-target: 1.4 deg\n  club-path: 3.2 deg\n"},
      {.student = "s-0402",
       .name = "Jonas",
       .seed = 287,
       .options = who_bends_more(preset_style()),
       .films = both(plain)},
      {.student = "s-0403",
       .name = "Lin",
       .seed = 403,
       .options = usual(landscape),
       .films = {plain, with_everything},
       .hand = Hand::left},
      {.student = "s-0404",
       .name = "Tomasz",
       .seed = 404,
       .club = "driver",
       .options = with_setup(Setup::driver),
       .films = both(plain),
       .limits = "no deep knee flexion"},
      {.student = "s-0405",
       .name = "Adaeze",
       .seed = 405,
       .club = "pitching-wedge",
       .swing = "chip",
       .options = with_setup(Setup::chip),
       .films = both(plain)},
      {.student = "s-0406",
       .name = "Pieter",
       .seed = 406,
       .club = "putter",
       .swing = "putt",
       .options = with_setup(Setup::putter),
       .films = both(plain)},
      {.student = "s-0407",
       .name = "Noor",
       .seed = 407,
       .options = junior(),
       .films = both(plain),
       .facts_in_manifest = true},
      {.student = "s-0408",
       .name = "Ines",
       .seed = 408,
       .options = filmed_as({View::face_on}),
       .films = {plain}},
      {.student = "s-0409",
       .name = "Kofi",
       .seed = 409,
       .options = filmed_as({View::down_the_line}),
       .films = {{.stick = true}}},
  };
}

/// Submissions that test the readers and the choice of the golfer.
std::vector<Sample> in_other_forms() {
  return {
      {.student = "s-0410",
       .name = "Yuki",
       .seed = 410,
       .options = bad_camera(),
       .films = both(plain)},
      {.student = "s-0411",
       .name = "Rasmus",
       .seed = 411,
       .options = with_skeleton(Skeleton::coco_17),
       .films = both({.written_as = WrittenAs::coco_17}),
       .limits = "no deep knee flexion"},
      {.student = "s-0412",
       .name = "Elif",
       .seed = 412,
       .options = with_skeleton(Skeleton::points_25),
       .films = both({.written_as = WrittenAs::one_file_a_frame}),
       .bystander = true},
      {.student = "s-0413",
       .name = "Dario",
       .seed = 413,
       .options = with_skeleton(Skeleton::points_33),
       .films = both({.written_as = WrittenAs::points_33})},
      {.student = "s-0414",
       .name = "Hana",
       .seed = 414,
       .options = same_swing(),
       .films = {{.written_as = WrittenAs::plain_gzipped}, plain},
       .frame_rate_hz = 60},
      {.student = "s-0415",
       .name = "Owen",
       .seed = 415,
       .options = with_club_in_film(),
       .films = both(plain),
       .loose = true},
  };
}

/// Submissions that must be set aside or refused a grade, each with its own reason.
std::vector<Sample> faulty() {
  return {
      {.student = "s-0416",
       .name = "Bea",
       .seed = 416,
       .options = usual(),
       .films = both(plain),
       .defect = Defect::truncated_file},
      {.student = "s-0417",
       .name = "Luis",
       .seed = 417,
       .options = usual(),
       .films = both(plain),
       .defect = Defect::misspelt_key},
      {.student = "s-0418",
       .name = "Greta",
       .seed = 418,
       .options = filmed_as({View::face_on, View::face_on}),
       .films = {plain, {.labelled = View::down_the_line}}},
  };
}

/// Films of whole swings.
std::vector<Sample> whole_swings() {
  const FilmPlan gzipped{.written_as = WrittenAs::plain_gzipped};
  const FilmPlan gzipped_33{.written_as = WrittenAs::points_33_gzipped};
  return {
      {.student = "s-0419",
       .name = "Anouk",
       .seed = 419,
       .options = of_swing(with_skeleton(Skeleton::points_33)),
       .filmed_swing = full_swing(60),
       .films = both(gzipped_33),
       .frame_rate_hz = 60},
      {.student = "s-0420",
       .name = "Femi",
       .seed = 420,
       .club = "driver",
       .options = of_swing(one_view(Setup::driver, View::face_on)),
       .filmed_swing = with_club(full_swing(30)),
       .films = {gzipped}},
      {.student = "s-0421",
       .name = "Sora",
       .seed = 421,
       .options = of_swing(same_swing()),
       .filmed_swing = full_swing(120),
       .films = both(gzipped),
       .hand = Hand::left,
       .frame_rate_hz = 120},
      {.student = "s-0422",
       .name = "Malin",
       .seed = 422,
       .club = "pitching-wedge",
       .swing = "chip",
       .options = of_swing(one_view(Setup::chip, View::face_on)),
       .filmed_swing = short_swing(SwingKind::chip, 60),
       .films = {gzipped},
       .frame_rate_hz = 60},
      {.student = "s-0423",
       .name = "Ravi",
       .seed = 423,
       .club = "putter",
       .swing = "putt",
       .options = of_swing(one_view(Setup::putter, View::face_on)),
       .filmed_swing = short_swing(SwingKind::putt, 60),
       .films = {gzipped},
       .frame_rate_hz = 60},
      {.student = "s-0424",
       .name = "Tilda",
       .seed = 424,
       .options = of_swing(one_view(Setup::iron, View::face_on)),
       .filmed_swing = begun_too_late(60),
       .films = {gzipped},
       .frame_rate_hz = 60},
      {.student = "s-0425",
       .name = "Ilse",
       .seed = 4251,
       .options = of_swing(one_view(Setup::iron, View::face_on)),
       .filmed_swing = with_club(full_swing(60)),
       .films = {{.written_as = WrittenAs::points_26_gzipped, .ball = false, .club_file = true}},
       .frame_rate_hz = 60,
       .others = {Other::passer}},
      {.student = "s-0426",
       .name = "Bram",
       .seed = 426,
       .options = of_swing(one_view(Setup::iron, View::face_on)),
       .filmed_swing = full_swing(30),
       .films = {{.written_as = WrittenAs::depth_camera_gzipped, .ball = false}}},
  };
}

}  // namespace

std::vector<Sample> planned_samples() {
  std::vector<Sample> all = ordinary();
  for (const auto& more : {in_other_forms(), faulty(), whole_swings()}) {
    all.insert(all.end(), more.begin(), more.end());
  }
  return all;
}

}  // namespace rangecheck::samples
