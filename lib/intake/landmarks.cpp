// SPDX-License-Identifier: MIT
#include "intake/landmarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>

#include "base/text.hpp"
#include "intake/dialect.hpp"

namespace rangecheck::intake {
namespace {

/// The plain form first: it is the only one that says what it is.
constexpr const Dialect* dialects[] = {&plain, &people_per_frame, &coco_results, &points_33};

/// Seven minutes at 240 Hz: no swing, and a bound on memory.
constexpr std::size_t most_frames = 100'000;

constexpr std::string_view image_remedy =
    "add image: { width: …, height: … } to this view in submission.yaml";

Json parse(const LandmarkText& file, const Spot& root) {
  if (is_plain_lines(file.bytes)) return join_plain_lines(file.bytes, root);
  return parse_document(file.bytes, root);
}

/// What a document that nobody recognises looks like, so that the user can see what went wrong.
std::string describe(const Json& json) {
  const Json& sample = json.is_array() && !json.empty() ? json.front() : json;
  if (!sample.is_object()) {
    return json.is_array()
               ? fmt::format("an array of {} with {} first", json.size(), kind_of(sample))
               : kind_of(json);
  }
  std::string keys;
  constexpr std::size_t most_keys = 4;
  std::size_t shown = 0;
  for (const auto& [key, value] : sample.items()) {
    if (shown++ == most_keys) break;
    keys += (keys.empty() ? "" : ", ") + rangecheck::quoted(key);
  }
  if (sample.size() > most_keys) keys += ", …";
  return fmt::format("{} with the keys {}", json.is_array() ? "an array of objects" : "an object",
                     keys.empty() ? "none" : keys);
}

const Dialect& dialect_of(const Json& json, const Spot& root) {
  if (is_empty(json)) refuse(root, Fault::not_a_film, "holds no frames");
  for (const Dialect* dialect : dialects) {
    if (dialect->recognises(json)) return *dialect;
  }
  refuse(root, Fault::not_a_film, "isn't a landmark file of a known form: it is " + describe(json),
         "write it in the plain form that README shows");
}

Film read_many(std::vector<const LandmarkText*> files) {
  std::stable_sort(files.begin(), files.end(),
                   [](const auto* a, const auto* b) { return natural_less(a->name, b->name); });
  Film film;
  const Dialect* dialect = nullptr;
  std::vector<std::string> names;
  for (const LandmarkText* file : files) {
    const std::size_t number = names.size();
    names.push_back(file->name);
    const Spot root = Spot(file->name).in_frame(number);
    const Json document = parse(*file, root);
    if (is_empty(document)) {
      film.frames.emplace_back();
      continue;
    }
    const Dialect& this_one = dialect_of(document, root);
    if (dialect != nullptr && dialect != &this_one) {
      refuse(root, Fault::not_a_film, "is of another form than the files before it",
             "keep the files of one film in a folder of their own");
    }
    dialect = &this_one;
    Film one = this_one.read(document, root);
    if (one.frames.size() != 1) {
      refuse(root, Fault::not_a_film,
             fmt::format("holds {} frames; a film in many files has one frame in each",
                         one.frames.size()));
    }
    auto frames = std::move(film.frames);
    frames.push_back(std::move(one.frames.front()));
    film = std::move(one);
    film.frames = std::move(frames);
  }
  if (dialect == nullptr) refuse(Spot(names.front()), Fault::not_a_film, "holds no frames");
  const auto numbers = frame_numbers(names);
  for (std::size_t i = 0; i < numbers.size(); ++i) film.frames[i].number = numbers[i];
  return film;
}

Film read_any(const std::vector<LandmarkText>& files) {
  if (files.empty()) refuse(Spot(""), Fault::not_a_film, "there are no landmark files");
  if (files.size() > 1) {
    if (files.size() > most_frames) {
      refuse(Spot(files.front().name), Fault::not_a_film, "is one of too many files for a swing");
    }
    std::vector<const LandmarkText*> pointers;
    for (const auto& file : files) pointers.push_back(&file);
    return read_many(std::move(pointers));
  }
  const Spot root(files.front().name);
  const Json document = parse(files.front(), root);
  return dialect_of(document, root).read(document, root);
}

template <class Use>
void each_person(Film& film, Use use) {
  for (auto& frame : film.frames) {
    for (auto& person : frame.people) use(person);
  }
}

/// Calls use(sighting) for every point in the picture.
template <class Use>
void each_sighting(Film& film, Use use) {
  each_person(film, [&](Person& person) {
    for (auto& point : person.image.values()) {
      if (point) use(*point);
    }
  });
}

/// Some builds of estimators write 0 for every point: that says nothing, not that all is hidden.
void settle_confidence(Film& film) {
  double largest = 0;
  each_sighting(film,
                [&](const Sighting& point) { largest = std::max(largest, point.confidence); });
  film.confidence_given = false;
  each_person(film, [&](Person& person) {
    for (auto& point : person.image.values()) {
      if (point && largest == 0) point->confidence = 1;
      if (point && point->confidence != 1) film.confidence_given = true;
    }
    for (auto& point : person.space.values()) {
      if (point && largest == 0) point->confidence = 1;
    }
  });
}

/// What the coordinates are counted in.
enum class Scale { pixels, fractions, centred_fractions };

/// No body in pixels fits into a square of five: then these are fractions of the picture, which may
/// go some way over its edges. From −1 to 1 about the middle is another habit of some writers.
Scale scale_of(Film& film) {
  bool any = false;
  double least = 0, most = 0;
  each_sighting(film, [&](const Sighting& point) {
    any = true;
    least = std::min({least, point.at.x_px, point.at.y_px});
    most = std::max({most, point.at.x_px, point.at.y_px});
  });
  if (!any || least < -2 || most > 3) return Scale::pixels;
  const bool centred = film.estimator != Estimator::points_33 && least < -0.25 && most <= 1;
  return centred ? Scale::centred_fractions : Scale::fractions;
}

void to_pixels(Film& film, const Spot& where) {
  const Scale scale = scale_of(film);
  if (scale == Scale::centred_fractions) {
    refuse(where, Fault::not_a_film, "has coordinates from -1 to 1, which can't be placed for sure",
           "export them in pixels");
  }
  film.dialect += scale == Scale::pixels ? ", in pixels" : ", in fractions of the picture";
  if (scale == Scale::pixels) return;
  if (!film.image) {
    refuse(where, Fault::not_a_film,
           "gives points in fractions of the picture, whose size isn't known",
           std::string(image_remedy));
  }
  each_sighting(film, [&](Sighting& point) {
    point.at.x_px *= film.image->width_px;
    point.at.y_px *= film.image->height_px;
  });
}

/// The manifest's size and the file's own have to agree: a film turned on its side is no film.
void settle_image(Film& film, const std::optional<ImageSize>& given, const Spot& where) {
  if (!given) return;
  if (film.image &&
      (film.image->width_px != given->width_px || film.image->height_px != given->height_px)) {
    refuse(
        where.at("image"), Fault::disagreement,
        fmt::format("the film says that the picture is {} × {}, the submission says {} × {}",
                    film.image->width_px, film.image->height_px, given->width_px, given->height_px),
        "correct the one that is wrong, or leave image out of the submission");
  }
  film.image = given;
}

/// Turns a left-hander's film over: x counted from the other edge, left and right exchanged.
void turn_over(Film& film) {
  const double width = film.image ? film.image->width_px : 0;
  each_person(film, [&](Person& person) {
    Person turned;
    turned.track = person.track;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const LandmarkId id = landmark_at(i);
      auto image = person.image[mirrored(id)];
      if (image) image->at.x_px = width - image->at.x_px;
      turned.image[id] = image;
      auto space = person.space[mirrored(id)];
      if (space) space->x_m = -space->x_m;
      turned.space[id] = space;
    }
    person = std::move(turned);
  });
}

Film read_or_throw(const std::vector<LandmarkText>& files, const ReadOptions& options) {
  Film film = read_any(files);
  const Spot where(files.front().name);
  if (film.frames.empty()) refuse(where, Fault::not_a_film, "holds no frames");
  if (film.frames.size() > most_frames) {
    refuse(where, Fault::not_a_film, "holds more than 100000 frames",
           "cut the film to the swing itself");
  }
  settle_image(film, options.image, where);
  to_pixels(film, where);
  settle_confidence(film);
  if (options.handedness == Handedness::left) turn_over(film);
  return film;
}

}  // namespace

Result<Film> read_landmarks(const std::vector<LandmarkText>& files, const ReadOptions& options) {
  const std::string name = files.empty() ? "" : files.front().name;
  try {
    return read_or_throw(files, options);
  } catch (const Refusal& refusal) {
    return refusal.error;
  } catch (const std::exception& caught) {
    Error error{Fault::unreadable, "can't be read: " + printable(caught.what()), {}, ""};
    error.where.file = name;
    return error;
  }
}

Result<Film> read_landmarks(const std::vector<LandmarkText>& files, std::optional<ImageSize> image,
                            Handedness handedness) {
  return read_landmarks(files, ReadOptions{.image = image, .handedness = handedness});
}

std::vector<std::string> known_dialects() {
  std::vector<std::string> lines;
  for (const Dialect* dialect : dialects) lines.emplace_back(dialect->structure);
  return lines;
}

}  // namespace rangecheck::intake
