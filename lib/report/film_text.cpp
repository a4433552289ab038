// SPDX-License-Identifier: MIT
#include "report/film_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <cmath>
#include <iterator>
#include <nlohmann/json.hpp>

#include "intake/film_words.hpp"
#include "intake/joint_names.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

using intake::Column;
using intake::Film;
using intake::Frame;
using intake::Person;
using intake::Sighting;
using intake::SpatialSighting;
namespace fact = intake::fact;

/// The shortest text that is this number and no other. A zero keeps its sign: "-0" would be read as
/// the whole number 0.
std::string number(double value) {
  return value == 0 && std::signbit(value) ? "-0.0" : fmt::format("{}", value);
}

std::string quoted_json(std::string_view text) {
  using Json = nlohmann::json;
  return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
}

template <class... Args>
void add(std::string& text, fmt::format_string<Args...> form, Args&&... args) {
  fmt::format_to(std::back_inserter(text), form, std::forward<Args>(args)...);
}

/// One fact about the film, as the words that both forms have for it.
struct Fact {
  std::string_view key;
  std::string value;
  bool is_text = true;
};

std::vector<Fact> facts_of(const Film& film) {
  std::vector<Fact> facts = {{fact::read_from, film.dialect}};
  if (film.frame_rate_hz) facts.push_back({fact::frame_rate, number(*film.frame_rate_hz), false});
  if (film.estimator != intake::Estimator::unknown)
    facts.push_back({fact::estimator, std::string(intake::word_for(film.estimator))});
  if (film.space != intake::SpaceSource::one_camera)
    facts.push_back({fact::space_source, std::string(intake::word_for(film.space))});
  if (film.picture_is_drawn) facts.push_back({fact::picture_is_drawn, "true", false});
  return facts;
}

/// Where a film has no confidences, only what differs from the 1 that stands for them.
std::string confidence_of(double confidence, bool given) {
  return given || confidence != 1 ? number(confidence) : "";
}

/// The numbers of a point, the confidence last and perhaps empty.
std::string numbers_of(const Sighting& point, bool confidence_given) {
  return fmt::format("{},{},{}", number(point.at.x_px), number(point.at.y_px),
                     confidence_of(point.confidence, confidence_given));
}

std::string numbers_of(const SpatialSighting& point, bool confidence_given) {
  return fmt::format("{},{},{},{}", number(point.x_m), number(point.y_m), number(point.z_m),
                     confidence_of(point.confidence, confidence_given));
}

/// {"nose":[612.5,1210,0.97],…}
template <class Point>
std::string points_object(const LandmarkMap<Point>& points, bool confidence_given) {
  std::string text = "{";
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& point = points.values()[i];
    if (!point) continue;
    std::string numbers = numbers_of(*point, confidence_given);
    if (numbers.back() == ',') numbers.pop_back();
    add(text, "{}\"{}\":[{}]", text.size() == 1 ? "" : ",", intake::point_names()[i], numbers);
  }
  return text + "}";
}

std::string person_object(const Person& person, bool confidence_given) {
  std::string text = "{";
  if (person.track) add(text, "\"track\":{},", *person.track);
  add(text, "\"points\":{}", points_object(person.image, confidence_given));
  const std::string space = points_object(person.space, confidence_given);
  if (space != "{}") add(text, ",\"space\":{}", space);
  return text + "}";
}

std::string header_line(const Film& film) {
  std::string text = fmt::format("{{\"format\":\"{}\",\"version\":{}", intake::plain_format,
                                 intake::plain_version);
  for (const auto& [key, value, is_text] : facts_of(film))
    add(text, ",\"{}\":{}", key, is_text ? quoted_json(value) : value);
  if (film.image)
    add(text, ",\"image\":{{\"width\":{},\"height\":{}}}", number(film.image->width_px),
        number(film.image->height_px));
  for (const auto& note : film.notes)
    add(text, "{}{}", &note == &film.notes.front() ? ",\"notes\":[" : ",",
        quoted_json(in_english(note)));
  return text + (film.notes.empty() ? "}\n" : "]}\n");
}

/// A text that may be anyone's; a leading ' of its own is doubled, since readers take one off.
std::string text_cell(const std::string& text) {
  return csv_cell(text.starts_with('\'') ? '\'' + text : text);
}

/// A row of the table, cell by cell; empty cells are what a film does not say.
class Cells {
 public:
  std::string& operator[](Column column) { return cells_[static_cast<std::size_t>(column)]; }
  std::string row() const { return fmt::format("{}\r\n", fmt::join(cells_, ",")); }

 private:
  std::array<std::string, intake::column_names.size()> cells_;
};

std::string fact_row(std::string_view key, const std::string& value) {
  Cells cells;
  cells[Column::fact] = key;
  cells[Column::value] = text_cell(value);
  return cells.row();
}

std::string fact_rows(const Film& film) {
  std::string rows = fact_row("format", std::string(intake::plain_format)) +
                     fact_row("version", std::to_string(intake::plain_version));
  for (const auto& fact : facts_of(film)) rows += fact_row(fact.key, fact.value);
  if (film.image) {
    rows += fact_row(fact::image_width, number(film.image->width_px));
    rows += fact_row(fact::image_height, number(film.image->height_px));
  }
  for (const auto& note : film.notes) rows += fact_row(fact::note, in_english(note));
  return rows;
}

/// The rows of one person; `cells` has what is true of all of them.
std::string point_rows(const Person& person, bool confidence_given, const Cells& cells) {
  std::string rows;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& image = person.image.values()[i];
    const auto& space = person.space.values()[i];
    if (!image && !space) continue;
    Cells row = cells;
    row[Column::point] = intake::point_names()[i];
    if (image) {
      row[Column::x] = number(image->at.x_px);
      row[Column::y] = number(image->at.y_px);
      row[Column::confidence] = confidence_of(image->confidence, confidence_given);
    }
    if (space) {
      row[Column::space_x] = number(space->x_m);
      row[Column::space_y] = number(space->y_m);
      row[Column::space_z] = number(space->z_m);
      row[Column::space_confidence] = confidence_of(space->confidence, confidence_given);
    }
    rows += row.row();
  }
  return rows;
}

std::string frame_rows(const Frame& frame, bool confidence_given) {
  Cells cells;
  cells[Column::frame] = std::to_string(frame.number);
  if (frame.time) cells[Column::time] = number(frame.time->in_seconds());
  if (frame.people.empty()) return cells.row();
  std::string rows;
  for (std::size_t i = 0; i < frame.people.size(); ++i) {
    const Person& person = frame.people[i];
    Cells same = cells;
    same[Column::person] = std::to_string(i + 1);
    if (person.track) same[Column::track] = std::to_string(*person.track);
    rows += point_rows(person, confidence_given, same);
  }
  return rows;
}

}  // namespace

std::string film_jsonl(const Film& film) {
  std::string text = header_line(film);
  for (const auto& frame : film.frames) {
    add(text, "{{\"frame\":{}", frame.number);
    if (frame.time) add(text, ",\"time\":{}", number(frame.time->in_seconds()));
    text += ",\"people\":[";
    for (const auto& person : frame.people)
      add(text, "{}{}", &person == &frame.people.front() ? "" : ",",
          person_object(person, film.confidence_given));
    text += "]}\n";
  }
  return text;
}

std::string film_csv(const Film& film) {
  std::string text = fmt::format("{}\r\n", fmt::join(intake::column_names, ",")) + fact_rows(film);
  for (const auto& frame : film.frames) text += frame_rows(frame, film.confidence_given);
  return text;
}

}  // namespace rangecheck::report
