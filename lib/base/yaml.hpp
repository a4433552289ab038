// SPDX-License-Identifier: MIT
#pragma once

#include <yaml-cpp/yaml.h>

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "base/result.hpp"

namespace rangecheck::yaml {

/// Parses one YAML document. `name` is what errors call the file. Refuses aliases (they can make a
/// small file huge) and duplicate keys. yaml-cpp's exceptions end here.
Result<YAML::Node> parse(const std::string& text, const std::string& name);

/// Reads a YAML map key by key and keeps what was wrong, so that a reader is a list of plain
/// statements and faults are reported with their lines.
///
///   yaml::Map map(node, "submission.yaml", "views[0]");
///   auto view = map.text("view");               // required
///   auto rate = map.optional_number("frame-rate");
///   if (auto error = map.finish()) return *error;   // first fault, or an unknown key + nearest
class Map {
 public:
  Map(YAML::Node node, std::string file, std::string path = "");

  bool has(std::string_view key) const;
  /// The node under `key`, marked as known; undefined node when absent.
  YAML::Node node(std::string_view key);
  std::string text(std::string_view key);
  std::optional<std::string> optional_text(std::string_view key);
  double number(std::string_view key);
  std::optional<double> optional_number(std::string_view key);
  bool flag(std::string_view key, bool fallback);
  std::optional<Quantity> optional_quantity(std::string_view key, Dimension wanted);
  /// One of `allowed`, or a fault that lists them.
  std::string choice(std::string_view key, std::span<const std::string_view> allowed);

  /// Records a fault at `key` of this map.
  void fault(std::string_view key, std::string what, std::string remedy = "");
  /// Every fault, at most one a key and in the order they were found, then each unknown key with
  /// the nearest known one.
  std::vector<Error> faults();
  /// The first of them, or nothing.
  std::optional<Error> finish();

  Place place(std::string_view key) const;
  const std::string& file() const { return file_; }

 private:
  YAML::Node node_;
  std::string file_;
  std::string path_;
  std::vector<std::string> known_;
  bool is_map_;
  std::vector<Error> faults_;
};

}  // namespace rangecheck::yaml
