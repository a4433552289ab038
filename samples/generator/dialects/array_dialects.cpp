// SPDX-License-Identifier: MIT
// Forms whose points are bare numbers in one list.
#include <fmt/format.h>

#include "generator/dialects/writing.hpp"

namespace rangecheck::samples {
namespace {

/// How a form writes a point.
using Numbers = Json (*)(const ScenePoint&);

/// x, y, c; of a point that was not seen 0, 0, 0 in whole numbers.
Json triple(const ScenePoint& point) {
  if (!point.seen()) return {0, 0, 0};
  return {px(point.at_px.x()), px(point.at_px.y()), score_of(point)};
}

/// The same with another habit for what was not seen.
Json triple_or_below(const ScenePoint& point) {
  return point.seen() ? triple(point) : Json{0.0, -3.0, 0.0};
}

/// x, y and a person's mark.
Json marked(const ScenePoint& point) {
  if (!point.seen()) return {0, 0, 0};
  return {px(point.at_px.x()), px(point.at_px.y()), 2};
}

Json flat(const ScenePerson& person, const PointOrder& order, Numbers numbers = triple) {
  Json list = Json::array();
  for (const auto& point : points_of(person, order)) {
    for (const auto& number : numbers(point)) list.push_back(number);
  }
  return list;
}

/// A hand with the wrist, which is written like its other points.
Json hand(const ScenePerson& person, std::string_view side, Numbers numbers = triple) {
  PointOrder order = order_of(fmt::format("{}-hand-21", side));
  order.front().id = point_named(fmt::format("{}_wrist", side));
  return flat(person, order, numbers);
}

std::string picture_name(const SceneFrame& frame) { return fmt::format("{}.jpg", frame.number); }

// ------------------------------------------------------------------------- people per frame

Json people_frame(const SceneFrame& frame, const PointOrder& order, std::string_view body_key,
                  bool with_hands) {
  const auto write = [&](const ScenePerson& person) -> Json {
    Json one = {{"person_id", {-1}}, {std::string(body_key), flat(person, order)}};
    one["face_keypoints_2d"] = Json::array();
    one["hand_left_keypoints_2d"] = with_hands ? hand(person, "left") : Json::array();
    one["hand_right_keypoints_2d"] = with_hands ? hand(person, "right") : Json::array();
    return one;
  };
  return {{"version", 1.3}, {"people", people_of(frame, write)}};
}

std::vector<NamedText> people_files(const Scene& scene, const PointOrder& order) {
  return file_a_frame(scene, [&](const SceneFrame& frame) {
    return people_frame(frame, order, "pose_keypoints_2d", false);
  });
}

std::vector<NamedText> people_files_with_hands(const Scene& scene, const PointOrder& order) {
  return file_a_frame(scene, [&](const SceneFrame& frame) {
    return people_frame(frame, order, "pose_keypoints_2d", true);
  });
}

/// Whoever was not found is there as an empty object.
std::vector<NamedText> people_files_of_old(const Scene& scene, const PointOrder& order) {
  return file_a_frame(scene, [&](const SceneFrame& frame) {
    Json document = people_frame(frame, order, "pose_keypoints", false);
    document["people"].push_back(Json::object());
    return document;
  });
}

/// What an editor of such files keeps.
std::vector<NamedText> canvases(const Scene& scene, const PointOrder& order) {
  return one_file(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    Json document = people_frame(frame, order, "pose_keypoints_2d", true);
    document.erase("version");
    document["canvas_width"] = scene.width_px;
    document["canvas_height"] = scene.height_px;
    return document;
  }));
}

std::vector<NamedText> people_by_picture(const Scene& scene, const PointOrder& order) {
  Json pictures = Json::object();
  for (const auto& frame : scene.frames) {
    Json document = people_frame(frame, order, "pose_keypoints_2d", false);
    document["version"] = "v0.3";
    pictures[picture_name(frame)] = document;
  }
  return one_file(pictures);
}

std::vector<NamedText> bodies_with_joints(const Scene& scene, const PointOrder& order) {
  return file_a_frame(scene, [&](const SceneFrame& frame) -> Json {
    return {{"version", 0.1}, {"bodies", people_of(frame, [&](const ScenePerson& person) -> Json {
                                 return {{"joints", flat(person, order)}};
                               })}};
  });
}

/// x, y, z and 1, or zeros, in millimetres.
Json quad(const ScenePoint& point) {
  if (!point.seen()) return {0, 0, 0, 0};
  return {rounded(1000 * point.at_m.x(), 1), rounded(1000 * point.at_m.y(), 1),
          rounded(1000 * point.at_m.z(), 1), 1};
}

std::vector<NamedText> people_in_space(const Scene& scene, const PointOrder& order) {
  return file_a_frame(scene, [&](const SceneFrame& frame) -> Json {
    return {{"people", people_of(frame, [&](const ScenePerson& person) -> Json {
               return {{"pose_keypoints_2d", Json::array()},
                       {"pose_keypoints_3d", flat(person, order, quad)}};
             })}};
  });
}

// ------------------------------------------------------------------------- one array

/// Not in order of the pictures, as several workers write it.
Json entries(const Scene& scene,
             const std::function<Json(const SceneFrame&, const ScenePerson&)>& write) {
  Json list = Json::array();
  for (auto frame = scene.frames.rbegin(); frame != scene.frames.rend(); ++frame) {
    for (const auto& person : frame->people) list.push_back(write(*frame, person));
  }
  return list;
}

std::vector<NamedText> tracked_results(const Scene& scene, const PointOrder& order) {
  return one_file(entries(scene, [&](const SceneFrame& frame, const ScenePerson& person) -> Json {
    return {{"image_id", picture_name(frame)},   {"category_id", 1},
            {"keypoints", flat(person, order)},  {"score", 2.9},
            {"box", {10.5, 20.5, 110.5, 320.5}}, {"idx", {double(person.track)}}};
  }));
}

std::vector<NamedText> results(const Scene& scene, const PointOrder& order) {
  return one_file(entries(scene, [&](const SceneFrame& frame, const ScenePerson& person) -> Json {
    return {{"image_id", frame.number},
            {"category_id", 1},
            {"keypoints", flat(person, order)},
            {"score", 0.9}};
  }));
}

// ------------------------------------------------------------------------- people of a picture

Json predictions(const SceneFrame& frame, const PointOrder& order) {
  return people_of(frame, [&](const ScenePerson& person) -> Json {
    return {{"keypoints", flat(person, order, triple_or_below)},
            {"bbox", {10.5, 20.5, 110.5, 320.5}},
            {"score", 0.9},
            {"category_id", 1},
            {"id_", person.track}};
  });
}

std::vector<NamedText> prediction_files(const Scene& scene, const PointOrder& order) {
  return file_a_frame(scene, [&](const SceneFrame& frame) { return predictions(frame, order); });
}

std::vector<NamedText> prediction_lines(const Scene& scene, const PointOrder& order) {
  return one_line_each(frames_of(scene, [&](const SceneFrame& frame) -> Json {
    return {{"frame", frame.number}, {"predictions", predictions(frame, order)}};
  }));
}

std::vector<NamedText> predictions_by_picture(const Scene& scene, const PointOrder& order) {
  Json pictures = Json::object();
  for (const auto& frame : scene.frames) pictures[picture_name(frame)] = predictions(frame, order);
  return one_file(pictures);
}

// ------------------------------------------------------------------------- marks on pictures

Json category(const PointOrder& order) {
  Json names = Json::array();
  for (const auto& point : order) names.push_back(point.name);
  return {{"id", 1}, {"name", "person"}, {"keypoints", names}, {"skeleton", {{1, 2}}}};
}

/// A data set's file; `write` makes an annotation without its ids.
std::vector<NamedText> annotated(const Scene& scene, const Json& categories,
                                 const std::function<Json(const ScenePerson&)>& write) {
  Json images = Json::array();
  for (const auto& frame : scene.frames) {
    images.push_back({{"id", 7000 + frame.number},
                      {"file_name", "swing/" + picture_name(frame)},
                      {"width", scene.width_px},
                      {"height", scene.height_px}});
  }
  const Json annotations =
      entries(scene, [&](const SceneFrame& frame, const ScenePerson& person) -> Json {
        Json one = write(person);
        one["image_id"] = 7000 + frame.number;
        one["category_id"] = 1;
        one["iscrowd"] = 0;
        return one;
      });
  return one_file({{"images", images}, {"annotations", annotations}, {"categories", categories}});
}

std::vector<NamedText> marks(const Scene& scene, const PointOrder& order) {
  return annotated(scene, Json::array({category(order)}), [&](const ScenePerson& person) -> Json {
    return {{"keypoints", flat(person, order, marked)}, {"track_id", person.track}};
  });
}

/// A category without names, as one data set has it.
std::vector<NamedText> marks_without_names(const Scene& scene, const PointOrder& order) {
  return annotated(scene, Json::array({category({})}), [&](const ScenePerson& person) -> Json {
    return {{"keypoints", flat(person, order, marked)}};
  });
}

/// Body, feet and hands in lists of their own, and another category's names beside.
std::vector<NamedText> marks_in_parts(const Scene& scene, const PointOrder& order) {
  constexpr std::size_t body = 17;
  const PointOrder of_body(order.begin(), order.begin() + body);
  const PointOrder of_feet(order.begin() + body, order.begin() + body + 6);
  const Json mouse = {{"id", 2}, {"name", "mouse"}, {"keypoints", {"snout", "tail_base"}}};
  return annotated(scene, Json::array({mouse, category(of_body)}),
                   [&](const ScenePerson& person) -> Json {
                     return {{"keypoints", flat(person, of_body, marked)},
                             {"foot_kpts", flat(person, of_feet, marked)},
                             {"foot_valid", true},
                             {"lefthand_kpts", hand(person, "left", marked)},
                             {"righthand_kpts", hand(person, "right", marked)}};
                   });
}

/// x, y, z and 1, or zeros, in metres with z up.
Json upright_quad(const ScenePoint& point) {
  if (!point.seen()) return {0, 0, 0, 0};
  return {metres(point.at_m.x()), metres(point.at_m.z()), metres(-point.at_m.y()), 1};
}

std::vector<NamedText> marks_in_space(const Scene& scene, const PointOrder& order) {
  return annotated(scene, Json::array({category(order)}), [&](const ScenePerson& person) -> Json {
    return {{"keypoints", flat(person, order, marked)},
            {"keypoints_3d", flat(person, order, upright_quad)}};
  });
}

std::vector<NamedText> joints_by_picture(const Scene& scene, const PointOrder& order) {
  Json list = Json::array();
  for (const auto& frame : scene.frames) {
    for (const auto& person : frame.people) {
      Json joints = Json::array(), seen = Json::array();
      for (const auto& point : points_of(person, order)) {
        joints.push_back(point.seen() ? Json{px(point.at_px.x()), px(point.at_px.y())}
                                      : Json{-1, -1});
        seen.push_back(point.seen() ? 1 : 0);
      }
      list.push_back({{"joints_vis", seen},
                      {"joints", joints},
                      {"image", picture_name(frame)},
                      {"scale", 4.7},
                      {"center", {966.0, 340.0}}});
    }
  }
  return one_file(list);
}

// ------------------------------------------------------------------------- the list

using Writer = std::vector<NamedText> (*)(const Scene&, const PointOrder&);

Dialect entry(std::string_view form, std::string_view title, std::string_view set,
              const Holds& holds, Writer write) {
  const auto order = order_of(set);
  Dialect dialect{.form = form, .title = title, .points = order, .holds = holds, .write = {}};
  dialect.write = [=](const Scene& scene) { return write(scene, order); };
  return dialect;
}

void add(std::vector<Dialect>& to, std::vector<Dialect> more) {
  to.insert(to.end(), more.begin(), more.end());
}

std::vector<Dialect> people_per_frame_entries() {
  const auto form = "people-per-frame", title = "`people` with flat lists";
  const Holds files = {.numbers = true};
  const Holds with_hands = {.hands = true, .numbers = true};
  std::vector<Dialect> all;
  for (const auto set :
       {"body-25", "body-25b", "vitpose-25", "coco-18", "mpi-15", "coco-17", "halpe-26"}) {
    all.push_back(entry(form, title, set, files, people_files));
  }
  for (const auto set : {"wholebody-133", "wholebody-134", "body-135", "halpe-136"}) {
    all.push_back(entry(form, title, set, with_hands, people_files));
  }
  add(all, {
               entry(form, title, "body-25", with_hands, people_files_with_hands),
               entry(form, title, "coco-18", files, people_files_of_old),
               entry(form, title, "coco-18", {.hands = true, .image_size = true}, canvases),
               entry(form, title, "coco-18", files, people_by_picture),
               entry(form, title, "mpi-15", files, bodies_with_joints),
               entry(form, title, "body-25",
                     {.picture = false,
                      .confidence = false,
                      .space_confidence = false,
                      .numbers = true,
                      .space = SpaceHeld::any_size},
                     people_in_space),
           });
  return all;
}

std::vector<Dialect> one_array_entries() {
  const auto form = "coco-results", title = "one array, an entry a person and picture";
  const Holds tracked = {.tracks = true, .numbers = true, .empty_frames = false};
  Holds with_hands = tracked;
  with_hands.hands = true;
  return {
      entry(form, title, "coco-17", tracked, tracked_results),
      entry(form, title, "halpe-26", tracked, tracked_results),
      entry(form, title, "halpe-136", with_hands, tracked_results),
      entry(form, title, "wholebody-133", with_hands, tracked_results),
      entry(form, title, "coco-17", {.numbers = true, .empty_frames = false}, results),
  };
}

std::vector<Dialect> picture_entries() {
  const auto form = "flat-keypoints", title = "people with flat lists a picture";
  const Holds tracked = {.tracks = true, .numbers = true};
  Holds with_hands = tracked;
  with_hands.hands = true;
  return {
      entry(form, title, "coco-17", tracked, prediction_files),
      entry(form, title, "wholebody-133", with_hands, prediction_lines),
      entry(form, title, "coco-17", tracked, predictions_by_picture),
  };
}

std::vector<Dialect> mark_entries() {
  const auto form = "annotated-pictures", title = "a data set's marks on pictures";
  const Holds marked = {.confidence = false, .numbers = true, .image_size = true};
  Holds tracked = marked, with_hands = marked, in_space = marked;
  tracked.tracks = true;
  with_hands.hands = true;
  in_space.space = SpaceHeld::any_heading;
  auto parts = entry(form, title, "wholebody-133", with_hands, marks_in_parts);
  return {
      entry(form, title, "coco-17", tracked, marks),
      entry(form, title, "posetrack-17", tracked, marks),
      entry(form, title, "crowdpose-14", tracked, marks),
      entry(form, title, "halpe-136", with_hands, marks_without_names),
      parts,
      entry(form, title, "h36m-17", in_space, marks_in_space),
      entry("joints-lists", "`joints` and `joints_vis` by picture", "mpii-16",
            {.confidence = false, .numbers = true, .empty_frames = false}, joints_by_picture),
  };
}

}  // namespace

std::vector<Dialect> array_dialects() {
  auto all = people_per_frame_entries();
  add(all, one_array_entries());
  add(all, picture_entries());
  add(all, mark_entries());
  return all;
}

}  // namespace rangecheck::samples
