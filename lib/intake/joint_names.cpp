// SPDX-License-Identifier: MIT
#include "intake/joint_names.hpp"

#include <algorithm>
#include <cassert>
#include <cctype>
#include <map>
#include <set>

#include "base/text.hpp"
#include "base/yaml.hpp"
#include "intake/shipped.hpp"

namespace rangecheck::intake {
namespace {

/// The words of a name in lower case: "LBigToe" → l, big, toe; "left_shoulder_1_joint" → left,
/// shoulder, 1, joint.
std::vector<std::string> words_of(std::string_view name) {
  enum class Class { none, lower, upper, digit };
  const auto class_of = [](char c) {
    if (c >= 'a' && c <= 'z') return Class::lower;
    if (c >= 'A' && c <= 'Z') return Class::upper;
    return c >= '0' && c <= '9' ? Class::digit : Class::none;
  };
  std::vector<std::string> words;
  Class before = Class::none;
  for (std::size_t i = 0; i < name.size(); ++i) {
    const Class now = class_of(name[i]);
    const bool lower_follows = i + 1 < name.size() && class_of(name[i + 1]) == Class::lower;
    const bool capital = now == Class::upper && (before == Class::lower || lower_follows);
    const bool begins =
        before == Class::none || capital || ((now == Class::digit) != (before == Class::digit));
    if (now != Class::none) {
      if (begins) words.emplace_back();
      words.back() += lower(name.substr(i, 1));
    }
    before = now;
  }
  return words;
}

/// Takes a word for a side off either end.
Side take_side(std::vector<std::string>& words) {
  const auto side_of = [](const std::string& word) {
    if (word == "left" || word == "l") return Side::lead;
    return word == "right" || word == "r" ? Side::trail : Side::centre;
  };
  if (words.size() < 2) return Side::centre;
  if (const Side side = side_of(words.front()); side != Side::centre) {
    words.erase(words.begin());
    return side;
  }
  const Side side = side_of(words.back());
  if (side != Side::centre) words.pop_back();
  return side;
}

/// What profiles/layouts/names.yaml says: joints by the words of their names, joined with "_".
struct UnusualNames {
  std::map<std::string, Joint, std::less<>> paired, central;
  std::set<std::string> not_human;
};

/// Reads one of its two maps. It is ours, and a test holds it: what can't be is left out.
void read_names(const YAML::Node& map, std::map<std::string, Joint, std::less<>>& names) {
  for (const auto& entry : map) {
    const auto joint = find_joint(entry.second.Scalar());
    if (joint) names[entry.first.Scalar()] = *joint;
  }
}

const UnusualNames& unusual_names() {
  static const UnusualNames names = [] {
    UnusualNames read;
    const auto document = yaml::parse(std::string(shipped_names()), "names.yaml");
    assert(document);
    read_names((*document)["with-a-side"], read.paired);
    read_names((*document)["in-the-middle"], read.central);
    for (const auto& word : (*document)["not-human"]) read.not_human.insert(word.Scalar());
    return read;
  }();
  return names;
}

}  // namespace

const std::vector<std::string>& point_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const LandmarkId id = landmark_at(i);
      const std::string_view side = id.side == Side::lead    ? "left_"
                                    : id.side == Side::trail ? "right_"
                                                             : "";
      all.push_back(std::string(side) + std::string(key_of(id.joint)));
    }
    return all;
  }();
  return names;
}

LayoutPoint point_called(std::string_view name) {
  const auto& names = point_names();
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return std::nullopt;
  return landmark_at(static_cast<std::size_t>(found - names.begin()));
}

std::string did_you_mean(std::string_view name) {
  const auto& names = point_names();
  const std::string near = nearest(name, std::vector<std::string_view>(names.begin(), names.end()));
  return near.empty() ? "" : "did you mean " + near + "?";
}

LayoutPoint joint_named(std::string_view name) {
  auto words = words_of(name);
  const Side side = take_side(words);
  std::string stem;
  for (const auto& word : words) stem += (stem.empty() ? "" : "_") + word;
  const auto& unusual = side == Side::centre ? unusual_names().central : unusual_names().paired;
  auto joint = find_joint(stem);
  if (const auto found = unusual.find(stem); found != unusual.end()) joint = found->second;
  if (!joint || is_paired(*joint) != (side != Side::centre)) return std::nullopt;
  return LandmarkId{side, *joint};
}

bool names_an_animal(std::string_view name) {
  const auto words = words_of(name);
  return std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return unusual_names().not_human.contains(word);
  });
}

}  // namespace rangecheck::intake
