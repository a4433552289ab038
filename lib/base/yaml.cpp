// SPDX-License-Identifier: MIT
#include "base/yaml.hpp"

#include <yaml-cpp/eventhandler.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "base/text.hpp"

namespace rangecheck::yaml {
namespace {

/// Far above any manifest or profile; yaml-cpp takes seconds for tens of megabytes.
constexpr std::size_t largest_document = std::size_t{1} << 20;

std::optional<int> line_of(const YAML::Mark& mark) {
  if (mark.is_null()) return std::nullopt;
  return mark.line + 1;
}

Error error_at(const std::string& file, std::optional<int> line, std::string key, std::string what,
               std::string remedy = "") {
  return {Fault::bad_value, std::move(what),
          Place{.file = file, .line = line, .frame = {}, .key = std::move(key)}, std::move(remedy)};
}

/// Watches the events of a document for an alias. (A tree of nodes no longer shows it.)
class AliasWatch : public YAML::EventHandler {
 public:
  std::optional<YAML::Mark> alias;

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    if (!alias) alias = mark;
  }
  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark&, YAML::anchor_t) override {}
  void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t,
                const std::string&) override {}
  void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {}
  void OnSequenceEnd() override {}
  void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                  YAML::EmitterStyle::value) override {}
  void OnMapEnd() override {}
};

/// The first key that stands twice in one map, or isn't a plain word.
std::optional<Error> find_bad_key(const YAML::Node& node, const std::string& file) {
  if (node.IsSequence()) {
    for (const auto& item : node) {
      if (auto error = find_bad_key(item, file)) return error;
    }
  }
  if (!node.IsMap()) return std::nullopt;
  std::set<std::string> seen;
  for (const auto& entry : node) {
    const YAML::Node& key = entry.first;
    const auto line = line_of(key.Mark());
    if (!key.IsScalar()) return error_at(file, line, "", "a key has to be a plain word");
    if (!seen.insert(key.Scalar()).second) {
      return error_at(file, line, printable(key.Scalar()), "this key stands here twice",
                      "keep one of the two");
    }
    if (auto error = find_bad_key(entry.second, file)) return error;
  }
  return std::nullopt;
}

Result<YAML::Node> parse_or_throw(const std::string& text, const std::string& name) {
  std::istringstream stream(text);
  YAML::Parser events(stream);
  AliasWatch watch;
  // One document at most, and nothing of it may be an alias.
  const bool any = events.HandleNextDocument(watch);
  if (watch.alias) {
    return error_at(name, line_of(*watch.alias), "", "YAML aliases (*name) are not accepted",
                    "write the value out");
  }
  AliasWatch second;
  if (any && events.HandleNextDocument(second)) {
    return error_at(name, std::nullopt, "", "holds more than one YAML document",
                    "remove what follows the line ---");
  }
  YAML::Node node = YAML::Load(text);
  if (auto error = find_bad_key(node, name)) return *error;
  return node;
}

std::string shown(const YAML::Node& node) {
  return node.IsScalar() ? quoted(node.Scalar()) : node.IsSequence() ? "a list" : "a map";
}

}  // namespace

Result<YAML::Node> parse(const std::string& text, const std::string& name) {
  if (text.size() > largest_document) {
    return error_at(name, std::nullopt, "", "is larger than 1 MiB, too large for a YAML file");
  }
  try {
    return parse_or_throw(text, name);
  } catch (const YAML::Exception& caught) {
    return error_at(name, line_of(caught.mark), "", "isn't valid YAML: " + printable(caught.msg));
  } catch (const std::exception& caught) {
    return error_at(name, std::nullopt, "", "isn't valid YAML: " + printable(caught.what()));
  }
}

Map::Map(YAML::Node node, std::string file, std::string path)
    : node_(node && node.IsMap() ? node : YAML::Node(YAML::NodeType::Map)),
      file_(std::move(file)),
      path_(std::move(path)) {
  if (node && node.IsMap()) return;
  const std::string got = !node || node.IsNull() ? "nothing" : shown(node);
  const auto line = node ? line_of(node.Mark()) : std::nullopt;
  first_ = error_at(file_, line, path_, "should be a map of keys and values, is " + got);
}

bool Map::has(std::string_view key) const {
  return static_cast<bool>(std::as_const(node_)[std::string(key)]);
}

YAML::Node Map::node(std::string_view key) {
  known_.emplace_back(key);
  return std::as_const(node_)[std::string(key)];
}

std::optional<std::string> Map::optional_text(std::string_view key) {
  const YAML::Node found = node(key);
  if (!found) return std::nullopt;
  if (found.IsNull()) {
    fault(key, "has no value", "write one, or leave the key out");
    return std::nullopt;
  }
  if (!found.IsScalar()) {
    fault(key, "should be a single value, is " + shown(found));
    return std::nullopt;
  }
  return found.Scalar();
}

std::string Map::text(std::string_view key) {
  auto value = optional_text(key);
  if (!value) fault(key, "is missing", "add this key");
  return value.value_or("");
}

std::optional<double> Map::optional_number(std::string_view key) {
  const auto written = optional_text(key);
  if (!written) return std::nullopt;
  const auto value = parse_number(*written);
  if (!value) fault(key, quoted(*written) + " isn't a number");
  return value;
}

double Map::number(std::string_view key) {
  const auto value = optional_number(key);
  if (!value) fault(key, "is missing", "add this key");
  return value.value_or(0);
}

bool Map::flag(std::string_view key, bool fallback) {
  const auto written = optional_text(key);
  if (!written) return fallback;
  const std::string value = lower(*written);
  if (value == "true" || value == "yes") return true;
  if (value == "false" || value == "no") return false;
  fault(key, quoted(*written) + " is neither true nor false");
  return fallback;
}

std::optional<Quantity> Map::optional_quantity(std::string_view key, Dimension wanted) {
  const auto written = optional_text(key);
  if (!written) return std::nullopt;
  const auto value = parse_quantity(*written, wanted);
  if (value) return *value;
  fault(key, value.error().what, value.error().remedy);
  return std::nullopt;
}

std::string Map::choice(std::string_view key, std::span<const std::string_view> allowed) {
  const std::string written = text(key);
  if (std::find(allowed.begin(), allowed.end(), written) != allowed.end()) return written;
  std::string list;
  for (const auto word : allowed) {
    if (!list.empty()) list += word == allowed.back() ? " or " : ", ";
    list += word;
  }
  const std::string near = nearest(written, allowed);
  fault(key, quoted(written) + " should be " + list,
        near.empty() ? "" : "did you mean " + near + "?");
  return "";
}

void Map::fault(std::string_view key, std::string what, std::string remedy) {
  if (first_) return;
  first_ = Error{Fault::bad_value, std::move(what), place(key), std::move(remedy)};
}

std::optional<Error> Map::finish() {
  if (first_) return first_;
  for (const auto& entry : node_) {
    const std::string& word = entry.first.Scalar();
    if (std::find(known_.begin(), known_.end(), word) != known_.end()) continue;
    const std::vector<std::string_view> candidates(known_.begin(), known_.end());
    const std::string near = nearest(word, candidates);
    fault(word, "there is no such key", near.empty() ? "" : "did you mean " + near + "?");
    return first_;
  }
  return std::nullopt;
}

Place Map::place(std::string_view key) const {
  Place where{.file = file_, .line = {}, .frame = {}, .key = path_};
  if (node_) where.line = line_of(node_.Mark());
  if (!key.empty()) {
    if (!where.key.empty()) where.key += '.';
    where.key += printable(key);
  }
  for (const auto& entry : node_) {
    if (entry.first.Scalar() == key) where.line = line_of(entry.first.Mark());
  }
  return where;
}

}  // namespace rangecheck::yaml
