// SPDX-License-Identifier: MIT
// One film of a submission: which files it is read from, its marks, its picture.
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;
namespace fs = std::filesystem;

namespace {

std::string film_with(const std::string& points, const std::string& more = "") {
  return R"({"format": "rangecheck-landmarks", "version": 1, )" + more +
         R"("frames": [{"people": [{"points": )" + points + "}]}]}";
}

const std::string knees = R"({"left_knee": [612, 1210], "right_knee": [500, 1212]})";

/// A submission s-1 whose one view is made of `lines`, with a film beside it.
struct OneView : Scratch {
  explicit OneView(const std::string& lines, const std::string& hand = "right",
                   const std::string& view = "face-on") {
    write("s-1/submission.yaml", "student: a\nclub: driver\ngolfer: { handedness: " + hand +
                                     " }\nviews:\n  - view: " + view + "\n" + lines);
    write("s-1/film.json", film_with(knees));
  }
  Result<Submission> read() const { return read_submission({"s-1", {}, path / "s-1"}, {}); }
  std::string error() const {
    const auto submission = read();
    REQUIRE_FALSE(submission);
    return to_string(submission.error());
  }
};

const std::string film_line = "    landmarks: film.json\n";
const std::string image_line = "    image: { width: 1000, height: 2000 }\n";
const std::string frame_file = R"({"people": [{"pose_keypoints_2d": [)" + triples(25, 100) + "]}]}";

}  // namespace

TEST_CASE("a left-hander's marks are turned over with the film") {
  const OneView given(film_line + image_line +
                          "    ball: [300, 1500]\n    target-line: [[900, 1610], [200, 1602]]\n",
                      "left");
  const auto read = given.read();
  REQUIRE(read);
  const FilmedView& view = read->views.front();
  CHECK(view.ball->x_px == 700);
  CHECK(view.ball->y_px == 1500);
  CHECK(view.target_line->first.x_px == 100);
  CHECK(view.target_line->second.x_px == 800);
  CHECK(view.film.frames[0].people[0].image[lead(Joint::knee)]->at.x_px == 500);
}

TEST_CASE("a target line points to the target, seen from either side") {
  const std::string away = "    target-line: [[900, 1610], [200, 1602]]\n";
  CHECK(OneView(film_line + image_line + away).error() ==
        "s-1/submission.yaml:8: views[0].target-line: points away from the target (write the point "
        "nearer the target second, or check view and handedness)");
  const std::string farther = "    target-line: [[500, 1610], [520, 1202]]\n";
  const std::string nearer = "    target-line: [[520, 1202], [500, 1610]]\n";
  CHECK(OneView(film_line + image_line + farther, "right", "down-the-line").read());
  CHECK_FALSE(OneView(film_line + image_line + nearer, "right", "down-the-line").read());
}

TEST_CASE("marks are in the picture and in pixels") {
  const auto error = [](const std::string& line) {
    return OneView(film_line + image_line + line).error();
  };
  CHECK(error("    ball: [1200, 1500]\n") ==
        "s-1/submission.yaml:8: views[0].ball: [1200, 1500] is outside the picture of 1000 × 2000 "
        "pixels (give points in pixels of the film)");
  CHECK(error("    ball: [0.6, 0.8]\n").find("looks like fractions of the picture") !=
        std::string::npos);
  CHECK(error("    ball: [612]\n").find("write it as [612, 1540]") != std::string::npos);
  CHECK(error("    ball: bal\n").find("views[0].ball: should be a point in pixels") !=
        std::string::npos);
  CHECK(error("    target-line: [180, 1610]\n").find("should be two points in pixels") !=
        std::string::npos);
}

TEST_CASE("a ball that the film itself shows") {
  const OneView given(film_line + image_line + "    ball: ball\n");
  CHECK(given.error() ==
        "s-1/submission.yaml:8: views[0].ball: no person in the film has a point named ball (write "
        "the ball's place in pixels, as [612, 1540])");
  given.write("s-1/film.json", film_with(R"({"ball": [640, 1540], "nose": [500, 300]})"));
  const auto read = given.read();
  REQUIRE(read);
  CHECK_FALSE(read->views[0].ball);
  CHECK(read->views[0].film.frames[0].people[0].image[centre(Joint::ball)]->at.x_px == 640);
}

TEST_CASE("the size of the picture has to come from somewhere, for pixels and fractions alike") {
  const std::string remedy =
      " (add image: { width: …, height: … } to this view in submission.yaml)";
  const OneView given(film_line);
  CHECK(given.error() == "s-1/film.json: the size of the picture isn't known" + remedy);
  given.write("s-1/film.json", film_with(R"({"nose": [0.5, 0.3], "neck": [0.5, 0.4]})"));
  CHECK(given.error() ==
        "s-1/film.json: gives points in fractions of the picture, whose size isn't known" + remedy);
  given.write("s-1/film.json", film_with(knees, R"("image": {"width": 720, "height": 1280}, )"));
  const auto read = given.read();
  REQUIRE(read);
  CHECK(read->views[0].film.image->width_px == 720);
}

TEST_CASE("films of many files: a folder, or a list") {
  const OneView folder("    landmarks: frames\n" + image_line);
  folder.write("s-1/frames/f_10.json", frame_file);
  folder.write("s-1/frames/f_9.json", R"({"people": []})");
  folder.write("s-1/frames/notes.txt", "not a frame");
  folder.write("s-1/frames/.f_8.json", "hidden");
  const auto read = folder.read();
  REQUIRE(read);
  REQUIRE(read->views[0].film.frames.size() == 2);
  CHECK(read->views[0].film.frames[0].number == 9);
  CHECK(read->views[0].film.frames[1].people.size() == 1);
  folder.write("s-1/frames/f_11.json", "{");
  CHECK(folder.error() ==
        "s-1/frames/f_11.json:1: frame 2: is cut short: the JSON in it doesn't end (send the file "
        "again)");

  const OneView list("    landmarks: [b/1.json, b/2.json]\n" + image_line);
  list.write("s-1/b/1.json", frame_file);
  list.write("s-1/b/2.json", frame_file);
  CHECK(list.read()->views[0].film.frames.size() == 2);

  const OneView nothing("    landmarks: frames\n" + image_line);
  fs::create_directory(nothing.path / "s-1/frames");
  CHECK(nothing.error() == "s-1/frames: holds no landmark files (.json, one a frame)");
}

TEST_CASE("a film's point set is named where the file can't tell it") {
  const std::string six = R"([{"image_id": 0, "category_id": 1, "score": 1, "keypoints":
      [600,500,1, 520,500,1, 590,900,1, 530,900,1, 595,1200,1, 525,1200,1]}])";
  const auto mine = read_layout(
      "layout: mine-6\ntitle: six\nsource: written here\npoints: [left_shoulder, right_shoulder, "
      "left_hip, right_hip, left_knee, right_knee]\n",
      "mine-6.yaml");
  REQUIRE(mine);
  LayoutSet layouts = shipped_layouts();
  layouts.add(*mine);
  const OneView named(film_line + image_line + "    layout: mine-6\n");
  named.write("s-1/film.json", six);
  const auto read = read_submission({"s-1", {}, named.path / "s-1"}, {}, layouts);
  if (!read) FAIL(to_string(read.error()));
  CHECK(x_of(person_in(read->views[0].film), trail(Joint::hip)) == 530);
  CHECK(named.error() ==
        "s-1/submission.yaml:8: views[0].layout: there is no point set \"mine-6\" (rangecheck "
        "layouts lists them all)");
  const OneView misspelt(film_line + image_line + "    layout: coco17\n");
  CHECK(misspelt.error().find("(did you mean coco-17?)") != std::string::npos);
}

TEST_CASE("a table is a film: named in the manifest, or by its own name") {
  const std::string table = "frame,point,x,y\n0,left_knee,612,1210\n0,right_knee,500,1212\n";
  const OneView named("    landmarks: film.csv\n" + image_line);
  named.write("s-1/film.csv", table);
  const auto read = named.read();
  if (!read) FAIL(to_string(read.error()));
  CHECK(x_of(person_in(read->views[0].film), lead(Joint::knee)) == 612);

  const Scratch inbox;
  inbox.write("a_driver_full_face-on.csv", table);
  inbox.write("b_driver_full_face-on.csv.gz", table);
  inbox.write("roster.csv", "id\na\n");
  inbox.write("c_driver_full_face-on.json", "{}");
  const auto found = find_submissions(inbox.path);
  REQUIRE(found);
  std::vector<std::string> ids;
  for (const auto& location : *found) ids.push_back(location.id);
  CHECK(ids == std::vector<std::string>{"a_driver_full", "b_driver_full", "c_driver_full"});
}

TEST_CASE("no path leads out of the submission's folder") {
  const auto error = [](const std::string& path) {
    return OneView("    landmarks: " + path + "\n" + image_line).error();
  };
  const std::string at = "s-1/submission.yaml:6: views[0].landmarks: ";
  const std::string remedy = " (put the file beside submission.yaml and write its name)";
  CHECK(error("../film.json") ==
        at + "\"../film.json\" leads out of the submission's folder" + remedy);
  CHECK(error("a/../../film.json") ==
        at + "\"a/../../film.json\" leads out of the submission's folder" + remedy);
  CHECK(error("/etc/passwd") ==
        at + "\"/etc/passwd\" has to be a path inside the submission's folder" + remedy);
  CHECK(error("filn.json") == at + "there is no file \"filn.json\" (did you mean film.json?)");
}

TEST_CASE("no link leads out of the submission's folder") {
  const OneView given("    landmarks: linked.json\n" + image_line);
  given.write("outside.json", film_with(knees));
  fs::create_symlink(given.path / "outside.json", given.path / "s-1/linked.json");
  CHECK(given.error() == "s-1/linked.json: is a link that leads out of the submission's folder");
  fs::remove(given.path / "s-1/linked.json");
  fs::create_symlink("film.json", given.path / "s-1/linked.json");
  CHECK(given.read());

  const OneView folder("    landmarks: frames\n" + image_line);
  folder.write("outside.json", frame_file);
  fs::create_directory(folder.path / "s-1/frames");
  fs::create_symlink(folder.path / "outside.json", folder.path / "s-1/frames/1.json");
  CHECK(folder.error() == "s-1/frames/1.json: is a link that leads out of the submission's folder");

  fs::create_directory_symlink(given.path / "s-1", given.path / "s-2");
  const auto linked = read_submission({"s-2", {}, given.path / "s-2"}, {});
  REQUIRE_FALSE(linked);
  CHECK(to_string(linked.error()) == "s-2: is a link (move the folder itself into the inbox)");
}
