// SPDX-License-Identifier: MIT
// The plain form as a table, for spreadsheets:
//
//   fact,value,frame,time,person,track,point,x,y,confidence,space_x,space_y,space_z,space_confidence
//   image-width,1080,,,,,,,,,,,,
//   ,,0,0.0,1,,left_knee,612.5,1210,0.97,,,,
//   ,,1,0.033,,,,,,,,,,
//
// A row is a point of a person; or, with `fact` and `value` alone, a fact about the film (facts and
// words as in the plain form's first line, see plain.cpp, with image-width, image-height and a row
// for each note); or, with `frame` and `time` alone, a frame in which nobody was found. Columns may
// stand in any order, and rows too: people are told apart by `person`, 1 where it is empty. Only
// frame, point, x and y are needed. An empty cell is something that isn't known. Cells may be
// separated by commas, or by semicolons or tabs, and then numbers may have a decimal comma.
#include "intake/dialects/csv.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.hpp"
#include "intake/byte_order_mark.hpp"
#include "intake/film_words.hpp"
#include "intake/joint_names.hpp"
#include "intake/rows.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::string_view separators = ",;\t";
constexpr std::size_t column_count = column_names.size();

std::optional<std::size_t> column_named(std::string_view cell) {
  const std::string name = lower(trim(cell));
  const auto found = std::find(column_names.begin(), column_names.end(), name);
  if (found == column_names.end()) return std::nullopt;
  return found - column_names.begin();
}

std::string_view first_line(std::string_view text) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  return text.substr(0, text.find('\n'));
}

/// How many of our columns the line names when its cells are separated by this.
std::size_t columns_in(std::string_view line, char separator) {
  const auto cells = split(line, separator);
  return std::count_if(cells.begin(), cells.end(), [](std::string_view cell) {
    cell = trim(cell);
    if (cell.size() > 1 && cell.front() == '"' && cell.back() == '"')
      cell = cell.substr(1, cell.size() - 2);
    return column_named(cell).has_value();
  });
}

char separator_of(std::string_view line) {
  return *std::max_element(separators.begin(), separators.end(), [&](char a, char b) {
    return columns_in(line, a) < columns_in(line, b);
  });
}

/// What one frame's rows say, person by person.
struct Gathered {
  std::optional<double> time_s;
  std::map<long long, RawPerson> people;
};

class Table {
 public:
  Table(std::string_view text, const Spot& where)
      : where_(where),
        separator_(separator_of(first_line(text))),
        rows_(text, where.place().file, separator_) {
    film_.form = "table of points";
    film_.names = point_names();
    film_.partial = true;
  }

  RawFilm read() {
    read_header();
    while (next_row()) {
      if (!cell(Column::fact).empty()) {
        read_fact();
      } else {
        read_point();
      }
    }
    if (film_.image && (film_.image->width_px == 0 || film_.image->height_px == 0)) {
      refuse(where_, Fault::bad_value, "the picture has only one of image-width and image-height",
             "give both");
    }
    return finished();
  }

 private:
  [[noreturn]] void refuse_row(std::optional<Column> column, std::string what,
                               std::string remedy = "") const {
    Place place = where_.place();
    place.line = row_.line;
    if (column) place.key = column_names[static_cast<std::size_t>(*column)];
    throw Refusal{Error{Fault::bad_value, std::move(what), std::move(place), std::move(remedy)}};
  }

  /// False after the last.
  bool next_row() {
    auto row = rows_.next();
    if (!row) throw Refusal{row.error()};
    if (!*row) return false;
    row_ = std::move(**row);
    if (order_.empty()) return true;
    for (std::size_t i = order_.size(); i < row_.cells.size(); ++i) {
      if (!trim(row_.cells[i]).empty())
        refuse_row(std::nullopt, "has more cells than the header has columns");
    }
    return true;
  }

  void read_header() {
    next_row();
    for (const auto& cell : row_.cells) {
      const auto column = column_named(cell);
      if (!column) {
        const std::string near = nearest(lower(trim(cell)), column_names);
        refuse_row(std::nullopt, "there is no column " + rangecheck::quoted(cell),
                   near.empty() ? "take it out" : "did you mean " + near + "?");
      }
      if (place_[*column]) refuse_row(Column(*column), "this column stands there twice");
      place_[*column] = order_.size();
      order_.push_back(*column);
    }
    for (const Column needed : {Column::frame, Column::point, Column::x, Column::y}) {
      if (!place_[static_cast<std::size_t>(needed)])
        refuse_row(needed, "the first line has no column of this name",
                   "the columns needed are frame, point, x and y");
    }
  }

  std::string_view cell(Column column) const {
    const auto& place = place_[static_cast<std::size_t>(column)];
    if (!place || *place >= row_.cells.size()) return {};
    return trim(row_.cells[*place]);
  }

  /// A text as it was before a leading ' made it safe to open.
  std::string value_text() const {
    const auto& place = place_[static_cast<std::size_t>(Column::value)];
    if (!place || *place >= row_.cells.size()) return "";
    const std::string& text = row_.cells[*place];
    return text.substr(text.starts_with('\'') ? 1 : 0);
  }

  /// Empty cells, and what statistics programs write for them, are nothing.
  std::optional<double> number(Column column) const {
    std::string text = lower(cell(column));
    if (text.empty() || text == "nan" || text == "na") return std::nullopt;
    if (separator_ != ',') std::replace(text.begin(), text.end(), ',', '.');
    const auto value = parse_number(text);
    if (!value)
      refuse_row(column, "should be a number, is " + rangecheck::quoted(cell(column)),
                 "leave the cell empty where nothing was seen");
    return value;
  }

  std::optional<long long> whole(Column column, long long least, long long most) const {
    const auto value = number(column);
    if (!value) return std::nullopt;
    const auto whole = static_cast<double>(static_cast<long long>(std::clamp(*value, -1e16, 1e16)));
    if (whole != *value || *value < static_cast<double>(least) ||
        *value > static_cast<double>(most))
      refuse_row(column, "should be a whole number from " + std::to_string(least));
    return static_cast<long long>(*value);
  }

  double positive(Column column) const {
    const auto value = number(column);
    if (!value || *value <= 0) refuse_row(column, "should be a number above 0");
    return *value;
  }

  template <class Value>
  Value word(std::optional<Value> found) const {
    if (!found) refuse_row(Column::value, "there is no such word");
    return *found;
  }

  ImageSize& image() { return film_.image ? *film_.image : film_.image.emplace(); }

  void read_fact() {
    const std::string key(cell(Column::fact));
    const std::string text = value_text();
    const std::string plain_word = lower(trim(text));
    if (key == "format") {
      if (plain_word != plain_format) refuse_row(Column::value, "is not rangecheck-landmarks");
    } else if (key == "version") {
      if (number(Column::value) != plain_version)
        refuse_row(Column::value, "should be 1, the only version there is so far");
    } else if (key == fact::read_from) {
      film_.form = text;
      film_.settled = true;
    } else if (key == fact::frame_rate) {
      film_.frame_rate_hz = positive(Column::value);
    } else if (key == fact::image_width) {
      image().width_px = positive(Column::value);
    } else if (key == fact::image_height) {
      image().height_px = positive(Column::value);
    } else if (key == fact::estimator) {
      film_.estimator = word(estimator_named(plain_word));
    } else if (key == fact::space_source) {
      film_.space.source = word(space_source_named(plain_word));
    } else if (key == fact::picture_is_drawn) {
      film_.picture_is_drawn = plain_word == "true";
      if (plain_word != "true" && plain_word != "false")
        refuse_row(Column::value, "should be true or false");
    } else if (key == fact::note) {
      film_.notes.push_back(as_written(text));
    } else {
      const std::string near = nearest(key, fact::all);
      refuse_row(Column::fact, "there is no such fact",
                 near.empty() ? "" : "did you mean " + near + "?");
    }
  }

  Gathered& read_frame() {
    constexpr long long largest = 1'000'000'000'000'000;  // whole numbers are exact in a double
    const auto frame = whole(Column::frame, 0, largest);
    if (!frame) refuse_row(Column::frame, "the row says no frame");
    Gathered& gathered = frames_[static_cast<std::size_t>(*frame)];
    check_frame_count(frames_.size(), where_);
    if (const auto time = number(Column::time)) {
      if (gathered.time_s.value_or(*time) != *time)
        refuse_row(Column::time, "is another time than in the frame's rows before");
      gathered.time_s = time;
    }
    return gathered;
  }

  void read_point() {
    Gathered& frame = read_frame();
    const std::string_view name = cell(Column::point);
    if (name.empty()) return;
    constexpr int most = 1'000'000'000;
    RawPerson& person = frame.people[whole(Column::person, 1, most).value_or(1)];
    if (frame.people.size() > most_people_in_frame)
      refuse_row(Column::person, "is one of more than 200 people in one picture");
    if (const auto track = whole(Column::track, -most, most)) {
      if (person.track.value_or(static_cast<int>(*track)) != *track)
        refuse_row(Column::track, "is another track than in the person's rows before");
      person.track = static_cast<int>(*track);
    }
    const auto plain = point_called(name);
    const auto id = plain ? plain : joint_named(name);
    if (!id) {
      const std::string near = did_you_mean(name);
      refuse_row(Column::point, "there is no point " + rangecheck::quoted(name),
                 near.empty() ? "sides are written left_ and right_" : near);
    }
    place(person.body, *id,
          {cell_or_none(Column::x), cell_or_none(Column::y), RawPoint::none,
           cell_or_none(Column::confidence)},
          Column::x);
    place(person.space, *id,
          {cell_or_none(Column::space_x), cell_or_none(Column::space_y),
           cell_or_none(Column::space_z), cell_or_none(Column::space_confidence)},
          Column::space_x);
  }

  double cell_or_none(Column column) const { return number(column).value_or(RawPoint::none); }

  void place(std::vector<RawPoint>& points, LandmarkId id, RawPoint point, Column column) {
    if (std::isnan(point.x) && std::isnan(point.y) && std::isnan(point.z)) return;
    points.resize(landmark_count);
    RawPoint& slot = points[index_of(id)];
    if (!std::isnan(slot.x))
      refuse_row(column, "the point stands there twice for this person and frame",
                 "number the people of a frame in the column person");
    slot = point;
  }

  RawFilm finished() {
    for (auto& [number, gathered] : frames_) {
      RawFrame frame{number, std::nullopt, {}};
      if (gathered.time_s) frame.time = Duration::seconds(*gathered.time_s);
      for (auto& [index, person] : gathered.people) frame.add(std::move(person), where_);
      film_.add(std::move(frame), where_);
    }
    return std::move(film_);
  }

  const Spot& where_;
  char separator_;
  RowReader rows_;
  Row row_;
  std::vector<std::size_t> order_;  ///< columns, as the first line names them
  std::array<std::optional<std::size_t>, column_count> place_{};  ///< of each column in a row
  RawFilm film_;
  std::map<std::size_t, Gathered> frames_;
};

}  // namespace

bool is_table(std::string_view text) {
  if (text.starts_with('{') || text.starts_with('[')) return false;  // JSON, all on its first line
  const auto line = first_line(text);
  return columns_in(line, separator_of(line)) >= 2;
}

RawFilm read_table(std::string_view text, const Spot& where) { return Table(text, where).read(); }

}  // namespace rangecheck::intake
