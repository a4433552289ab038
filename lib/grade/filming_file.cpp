// SPDX-License-Identifier: MIT
// filming.yaml.
#include <algorithm>

#include "base/read_file.hpp"
#include "base/text.hpp"
#include "grade/filming_kinds.hpp"
#include "grade/profile_file.hpp"

namespace rangecheck::grade {
namespace {

constexpr std::array views{intake::View::face_on, intake::View::down_the_line};
constexpr std::size_t largest_file = std::size_t{1} << 20;

bool holds(const Band& outer, const Band& inner) {
  const bool low = !outer.lower_si || (inner.lower_si && *inner.lower_si >= *outer.lower_si);
  const bool high = !outer.upper_si || (inner.upper_si && *inner.upper_si <= *outer.upper_si);
  return low && high;
}

/// The keys that may differ between views.
void read_limits(yaml::Map& map, Dimension dimension, Criterion& into) {
  if (const auto good = optional_target(map, "good", dimension)) {
    into.good = good->band;
    into.unit = good->unit;
  }
  if (const auto fair = optional_target(map, "fair", dimension)) into.fair = fair->band;
  if (const auto words = map.optional_text("when-fair")) into.when_fair = *words;
  if (const auto words = map.optional_text("when-poor")) into.when_poor = *words;
  if (const auto words = map.optional_text("advice")) into.advice = *words;
}

/// A fault of `map`, which gave `criterion` its last keys.
void check(yaml::Map& map, const Criterion& criterion) {
  const auto empty = [](const Band& band) { return !band.lower_si && !band.upper_si; };
  if (empty(criterion.good)) map.fault("good", "is missing", "write what is good enough");
  if (empty(criterion.fair)) map.fault("fair", "is missing", "write what will still do");
  if (!holds(criterion.fair, criterion.good))
    map.fault("fair", "does not hold all that is good", "make it wider than good:");
  if (criterion.advice.empty()) map.fault("advice", "is missing", "say how to film it better");
}

void read_criterion(yaml::Map& all, const std::string& id, Filming& into, Faults& faults) {
  const FilmingKind* kind = find_filming_kind(id);
  if (!kind) {
    std::vector<std::string_view> known;
    for (const auto& each : filming_kinds()) known.push_back(each.id);
    faults.push_back(
        {Fault::bad_value, "there is no such criterion", all.place(id), did_you_mean(id, known)});
    return;
  }
  yaml::Map map(all.node(id), all.file(), all.place(id).key);
  Criterion common;
  common.id = id;
  common.title = map.text("title");
  read_limits(map, kind->dimension, common);
  for (const intake::View view : views) {
    Criterion criterion = common;
    const std::string name(intake::name_of(view));
    if (const YAML::Node found = map.node(name)) {
      yaml::Map own(found, map.file(), map.place(name).key);
      read_limits(own, kind->dimension, criterion);
      check(own, criterion);
      finish(own, faults);
    } else {
      check(map, criterion);
    }
    into.of_view[static_cast<std::size_t>(view)].push_back(std::move(criterion));
  }
  finish(map, faults);
}

}  // namespace

Filming read_filming(const std::string& text, const std::string& file, Faults& faults) {
  Filming out;
  const auto document = yaml::parse(text, file);
  if (!document) {
    faults.push_back(document.error());
    return out;
  }
  yaml::Map map(*document, file);
  require_version(map);
  out.confidence = map.optional_number("confidence").value_or(out.confidence);
  if (!(out.confidence > 0.5 && out.confidence < 1))
    map.fault("confidence", "must be more than 0.5 and less than 1");
  if (const auto slow = map.optional_quantity("slow-hands", Dimension::ratio))
    out.slow_hands = slow->si;
  const YAML::Node found = map.node("criteria");
  yaml::Map criteria(found, file, "criteria");
  finish(map, faults);
  if (!found || !found.IsMap())
    finish(criteria, faults);
  else
    for (const auto& entry : found) read_criterion(criteria, entry.first.Scalar(), out, faults);
  return out;
}

Result<Filming> read_filming(const std::string& text, const std::string& file) {
  Faults faults;
  Filming out = read_filming(text, file, faults);
  if (!faults.empty()) return faults.front();
  return out;
}

Result<Filming> load_filming(const std::filesystem::path& folder) {
  const auto file = folder / "filming.yaml";
  std::error_code failed;
  if (!std::filesystem::exists(file, failed)) return shipped_filming();
  const auto text = read_file(file, "filming.yaml", largest_file);
  if (!text) return text.error();
  auto filming = read_filming(*text, "filming.yaml");
  if (!filming) filming.error().fault = Fault::bad_profile;
  return filming;
}

const Filming& shipped_filming() {
  // Read by every test of it: it can't fail in a program that was built.
  static const Filming filming = *read_filming(std::string(shipped_filming_text()), "filming.yaml");
  return filming;
}

}  // namespace rangecheck::grade
