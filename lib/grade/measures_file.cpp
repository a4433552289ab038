// SPDX-License-Identifier: MIT
// measures.yaml: a coach's own measures, put together from a few primitives.
#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "grade/profile_file.hpp"
#include "grade/reading.hpp"

namespace rangecheck::grade {
namespace {

using measure::LineOf;
using measure::OwnMeasure;
using measure::PointOf;
using measure::Primitive;

template <class Value>
struct Word {
  std::string_view word;
  Value value;
};

constexpr auto axes = std::to_array<Word<measure::Axis>>(
    {{"target", measure::Axis::target}, {"up", measure::Axis::up}, {"ball", measure::Axis::ball}});
constexpr auto planes = std::to_array<Word<measure::Plane>>({{"space", measure::Plane::space},
                                                             {"ground", measure::Plane::ground},
                                                             {"front", measure::Plane::front},
                                                             {"side", measure::Plane::side}});
constexpr auto joint_angles = std::to_array<Word<bool>>({{"flexion", true}, {"included", false}});

/// One of the words of `table`, or a fault that lists them.
template <class Table>
auto choose(yaml::Map& map, std::string_view key, const Table& table) {
  std::vector<std::string_view> words;
  for (const auto& each : table) words.push_back(each.word);
  const std::string written = map.choice(key, words);
  const auto found = std::ranges::find(table, std::string_view(written), &Table::value_type::word);
  return (found == table.end() ? table.begin() : found)->value;
}

std::vector<std::string_view> landmark_names() {
  static const auto names = [] {
    std::array<std::string, landmark_count> all;
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = name_of(landmark_at(i));
    return all;
  }();
  return {names.begin(), names.end()};
}

/// The landmark called `written` ("lead knee", "Lead_knee" and "lead-knee" are one), or a fault.
std::optional<LandmarkId> landmark(yaml::Map& map, std::string_view key,
                                   const std::string& written) {
  std::string words = kebab(written);
  std::ranges::replace(words, '-', ' ');
  const auto names = landmark_names();
  const auto found = std::ranges::find(names, std::string_view(words));
  if (found != names.end()) return landmark_at(static_cast<std::size_t>(found - names.begin()));
  std::ranges::replace(words, ' ', '_');
  const auto joint = find_joint(words);
  if (joint && is_paired(*joint))
    map.fault(key, rangecheck::quoted(written) + " is there on both sides",
              "write " + name_of(lead(*joint)) + " or " + name_of(trail(*joint)));
  else
    map.fault(key, rangecheck::quoted(written) + " is no landmark", did_you_mean(written, names));
  return std::nullopt;
}

constexpr std::string_view how_to_measure =
    "write one of angle-at-joint, line-against, distance, ratio and change";
constexpr std::string_view how_to_point = "write a landmark, or [one, two] for the middle of them";

/// One landmark, or a list of them: their middle.
PointOf point_of(yaml::Map& map, std::string_view key, const YAML::Node& node) {
  PointOf point;
  std::vector<std::string> words;
  if (node && node.IsScalar()) words.push_back(node.Scalar());
  if (node && node.IsSequence())
    for (const auto& item : node) words.push_back(item.IsScalar() ? item.Scalar() : "");
  if (words.empty())
    map.fault(key, node ? "should be a point" : "is missing", std::string(how_to_point));
  for (const auto& word : words)
    if (const auto found = landmark(map, key, word)) point.landmarks.push_back(*found);
  return point;
}

PointOf point(yaml::Map& map, std::string_view key) { return point_of(map, key, map.node(key)); }

/// [from, to], where each may be a list of its own.
LineOf line_of(yaml::Map& map, std::string_view key, const YAML::Node& node) {
  if (!node || !node.IsSequence() || node.size() != 2) {
    map.fault(key, node ? "should be a line" : "is missing",
              "write [from, to]; for the middle of two points [[one, two], to]");
    return {};
  }
  return {point_of(map, key, node[0]), point_of(map, key, node[1])};
}

measure::DirectionOf direction(yaml::Map& map, std::string_view key) {
  const YAML::Node node = map.node(key);
  if (node && node.IsSequence()) return line_of(map, key, node);
  return choose(map, key, axes);
}

using Kind = decltype(Primitive::kind);

/// Reads primitives, which may hold others, and keeps what is wrong with them.
class PrimitiveReader {
 public:
  /// The one primitive among the keys of `map`, which stands at `place`; its other keys are left to
  /// the caller.
  Primitive one_of(yaml::Map& map, const Place& place) {
    const Entry* only = nullptr;
    for (const Entry& entry : entries) {
      if (!map.has(entry.word)) continue;
      if (only)
        keep(map.place(entry.word), "stands beside " + std::string(only->word),
             "keep one of the two");
      only = &entry;
    }
    for (const Entry& entry : entries) map.node(entry.word);
    if (!only) {
      // A misspelt key is the likelier fault, and says so itself.
      if (!map.finish()) keep(place, "says nothing to measure", std::string(how_to_measure));
      return {};
    }
    yaml::Map inside(map.node(only->word), map.file(), map.place(only->word).key);
    Primitive read{(this->*only->value)(inside)};
    finish(inside, faults_);
    return read;
  }

  const Faults& faults() const { return faults_; }

 private:
  using Entry = Word<Kind (PrimitiveReader::*)(yaml::Map&)>;
  static const std::array<Entry, 5> entries;

  void keep(const Place& place, std::string what, std::string remedy) {
    faults_.push_back({Fault::bad_profile, std::move(what), place, std::move(remedy)});
  }

  Kind angle_at_joint(yaml::Map& map) {
    measure::AngleAtJoint angle;
    angle.first = point(map, "first");
    angle.joint = point(map, "joint");
    angle.second = point(map, "second");
    if (map.has("as")) angle.flexion = choose(map, "as", joint_angles);
    map.node("as");
    return angle;
  }

  Kind line_against(yaml::Map& map) {
    measure::LineAgainst angle;
    angle.line = line_of(map, "line", map.node("line"));
    angle.reference = direction(map, "against");
    angle.plane = choose(map, "in", planes);
    return angle;
  }

  Kind distance(yaml::Map& map) {
    PointOf from = point(map, "from");
    PointOf to = point(map, "to");
    const bool straight = !map.has("along");
    map.node("along");
    if (straight) return measure::DistanceBetween{std::move(from), std::move(to)};
    return measure::DistanceAlong{std::move(from), std::move(to), choose(map, "along", axes)};
  }

  Kind ratio(yaml::Map& map) {
    auto over = within(map, "over");
    return measure::RatioOf{std::move(over), within(map, "under")};
  }

  Kind change(yaml::Map& map) { return measure::ChangeOf{within(map, "of")}; }

  /// The primitive under `key`, for those made of others.
  std::shared_ptr<const Primitive> within(yaml::Map& map, std::string_view key) {
    const YAML::Node node = map.node(key);
    if (!node) {
      map.fault(key, "is missing", std::string(how_to_measure));
      return std::make_shared<const Primitive>();
    }
    yaml::Map inside(node, map.file(), map.place(key).key);
    auto read = std::make_shared<const Primitive>(one_of(inside, map.place(key)));
    finish(inside, faults_);
    return read;
  }

  Faults faults_;
};

constexpr std::array<PrimitiveReader::Entry, 5> PrimitiveReader::entries{{
    {"angle-at-joint", &PrimitiveReader::angle_at_joint},
    {"line-against", &PrimitiveReader::line_against},
    {"distance", &PrimitiveReader::distance},
    {"ratio", &PrimitiveReader::ratio},
    {"change", &PrimitiveReader::change},
}};

Dimension dimension_of(const Primitive& primitive) {
  if (const auto* change = std::get_if<measure::ChangeOf>(&primitive.kind))
    return dimension_of(*change->of);
  if (std::holds_alternative<measure::RatioOf>(primitive.kind)) return Dimension::ratio;
  const bool length = std::holds_alternative<measure::DistanceAlong>(primitive.kind) ||
                      std::holds_alternative<measure::DistanceBetween>(primitive.kind);
  return length ? Dimension::length : Dimension::angle;
}

/// Regions of the body, which are all but the times.
constexpr auto regions = [] {
  std::array<Word<measure::Region>, static_cast<std::size_t>(measure::Region::timing)> all{};
  for (std::size_t i = 0; i < all.size(); ++i) all[i].value = static_cast<measure::Region>(i);
  return all;
}();

measure::Region region(yaml::Map& map) {
  auto table = regions;
  for (auto& each : table) each.word = measure::name_of(each.value);
  return choose(map, "region", table);
}

Positions positions(yaml::Map& map) {
  const auto words = optional_words(map, "at");
  if (!words || words->empty())
    map.fault("at", "says no position", "write [top, impact] or one alone");
  Positions at;
  for (const auto& word : words.value_or(std::vector<std::string>{})) {
    const auto position = find_position(word);
    if (position)
      at = at | Positions::of(*position);
    else
      map.fault("at", rangecheck::quoted(word) + " is no position",
                did_you_mean(word, position_words()));
  }
  return at;
}

/// What only profiles know against `id` as the name of a measure.
std::optional<Error> bad_id(const std::string& id, const Place& place) {
  const auto error = [&place](std::string what) {
    return Error{Fault::bad_profile, std::move(what), place, "choose another name"};
  };
  if (id.find('/') != std::string::npos) return error("a / stands between position and measure");
  if (find_reading(id)) return error("is the name of a reading");
  return std::nullopt;
}

/// Nothing where that would be no measure.
std::shared_ptr<const OwnMeasure> read_own(yaml::Map& measures, const std::string& id,
                                           Faults& faults) {
  const Place place = measures.place(id);
  if (auto error = bad_id(id, place)) {
    faults.push_back(*error);
    return nullptr;
  }
  yaml::Map map(measures.node(id), place.file, place.key);
  PrimitiveReader reader;
  measure::OwnMeasureFacts facts;
  facts.id = id;
  facts.origin = origin_of(place);
  facts.title = map.text("title");
  facts.sign = map.text("sign");
  facts.region = region(map);
  facts.at = positions(map);
  const bool has_limit = map.has("seen-within");
  map.node("seen-within");
  facts.primitive = reader.one_of(map, place);
  // Without a primitive nobody knows what kind of quantity the limit should be.
  if (has_limit && reader.faults().empty()) {
    const auto limit = map.optional_quantity("seen-within", dimension_of(facts.primitive));
    if (limit) facts.seen_limit_si = limit->si;
  }
  const auto before = faults.size();
  faults.insert(faults.end(), reader.faults().begin(), reader.faults().end());
  finish(map, faults);
  if (faults.size() > before) return nullptr;
  auto made = OwnMeasure::make(std::move(facts));
  if (made) return std::shared_ptr<const OwnMeasure>(std::move(*made));
  made.error().where = place;
  faults.push_back(made.error());
  return nullptr;
}

}  // namespace

std::vector<std::shared_ptr<const OwnMeasure>> read_own_measures(const YAML::Node& document,
                                                                 const std::string& file,
                                                                 Faults& faults) {
  yaml::Map map(document, file);
  require_version(map);
  const YAML::Node found = map.node("measures");
  yaml::Map measures(found, file, "measures");
  finish(map, faults);
  std::vector<std::shared_ptr<const OwnMeasure>> own;
  if (!found || !found.IsMap()) {
    finish(measures, faults);
    return own;
  }
  for (const auto& entry : found)
    if (auto read = read_own(measures, entry.first.Scalar(), faults))
      own.push_back(std::move(read));
  return own;
}

}  // namespace rangecheck::grade
