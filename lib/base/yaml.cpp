// SPDX-License-Identifier: MIT
#include "base/yaml.hpp"

#include <yaml-cpp/eventhandler.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "base/text.hpp"

namespace rangecheck::yaml {
namespace {

// Far above any manifest or profile; a document's bytes, nodes and depth bound the time and memory
// that it takes.
/// yaml-cpp takes seconds for tens of megabytes.
constexpr std::size_t largest_document = std::size_t{1} << 20;
/// The largest file of ours, translated advice, has some three thousand.
constexpr std::size_t most_nodes = 50'000;
/// Ours have up to a hundred. Keys are looked up one by one, which takes time with their square.
constexpr std::size_t most_keys = 1000;
/// The deepest file of ours: six. Bounds recursion in whoever walks a document.
constexpr std::size_t deepest = 32;

std::optional<int> line_of(const YAML::Mark& mark) {
  if (mark.is_null()) return std::nullopt;
  return mark.line + 1;
}

Error error_at(const std::string& file, std::optional<int> line, std::string key, std::string what,
               std::string remedy = "") {
  return {Fault::bad_value, std::move(what),
          Place{.file = file, .line = line, .frame = {}, .key = std::move(key)}, std::move(remedy)};
}

/// Why a document is not even looked at; ends its reading.
struct Refused {
  YAML::Mark at;
  std::string_view what, remedy;
};

/// Watches the events of a document, before a tree of nodes is made of it: for an alias, which the
/// tree no longer shows, and for more than any file of ours has.
class Watch : public YAML::EventHandler {
 public:
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    throw Refused{mark, "YAML aliases (*name) are not accepted", "write the value out"};
  }
  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override { count(mark); }
  void OnScalar(const YAML::Mark& mark, const std::string&, YAML::anchor_t,
                const std::string&) override {
    count(mark);
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {
    descend(mark, most_nodes);
  }
  void OnSequenceEnd() override { left_.pop_back(); }
  void OnMapStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t,
                  YAML::EmitterStyle::value) override {
    descend(mark, 2 * most_keys);
  }
  void OnMapEnd() override { left_.pop_back(); }

 private:
  void count(const YAML::Mark& mark) {
    if (++nodes_ > most_nodes) throw Refused{mark, "holds more than 50000 values", ""};
    if (!left_.empty() && left_.back()-- == 0) {
      throw Refused{mark, "more than 1000 keys stand in one map", ""};
    }
  }
  void descend(const YAML::Mark& mark, std::size_t most) {
    count(mark);
    left_.push_back(most);
    if (left_.size() > deepest) throw Refused{mark, "is nested more than 32 deep", ""};
  }

  std::size_t nodes_ = 0;
  std::vector<std::size_t> left_;  ///< of each list and map around, how many more may follow
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
      return error_at(file, line, shortened(key.Scalar()), "this key stands here twice",
                      "keep one of the two");
    }
    if (auto error = find_bad_key(entry.second, file)) return error;
  }
  return std::nullopt;
}

Result<YAML::Node> parse_or_throw(const std::string& text, const std::string& name) {
  std::istringstream stream(text);
  YAML::Parser events(stream);
  Watch watch;
  // One document at most.
  if (events.HandleNextDocument(watch) && events.HandleNextDocument(watch)) {
    return error_at(name, std::nullopt, "", "holds more than one YAML document",
                    "remove what follows the line ---");
  }
  YAML::Node node = YAML::Load(text);
  if (auto error = find_bad_key(node, name)) return *error;
  return node;
}

std::string shown(const YAML::Node& node) {
  return node.IsScalar()     ? rangecheck::quoted(node.Scalar())
         : node.IsSequence() ? "a list"
                             : "a map";
}

}  // namespace

Result<YAML::Node> parse(const std::string& text, const std::string& name) {
  if (text.size() > largest_document) {
    return error_at(name, std::nullopt, "", "is larger than 1 MiB, too large for a YAML file");
  }
  try {
    return parse_or_throw(text, name);
  } catch (const Refused& refused) {
    return error_at(name, line_of(refused.at), "", std::string(refused.what),
                    std::string(refused.remedy));
  } catch (const YAML::Exception& caught) {
    return error_at(name, line_of(caught.mark), "", "isn't valid YAML: " + printable(caught.msg));
  } catch (const std::exception& caught) {
    return error_at(name, std::nullopt, "", "isn't valid YAML: " + printable(caught.what()));
  }
}

Map::Map(YAML::Node node, std::string file, std::string path)
    : node_(node && node.IsMap() ? node : YAML::Node(YAML::NodeType::Map)),
      file_(std::move(file)),
      path_(std::move(path)),
      is_map_(node && node.IsMap()) {
  if (is_map_) return;
  const std::string got = !node || node.IsNull() ? "nothing" : shown(node);
  const auto line = node ? line_of(node.Mark()) : std::nullopt;
  faults_.push_back(error_at(file_, line, path_, "should be a map of keys and values, is " + got));
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
  if (!value) fault(key, rangecheck::quoted(*written) + " isn't a number");
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
  fault(key, rangecheck::quoted(*written) + " is neither true nor false");
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
  fault(key, rangecheck::quoted(written) + " should be " + list,
        near.empty() ? "" : "did you mean " + near + "?");
  return "";
}

void Map::fault(std::string_view key, std::string what, std::string remedy) {
  if (!is_map_) return;  // whatever is missing then is missing for that
  Error found{Fault::bad_value, std::move(what), place(key), std::move(remedy)};
  const auto same_key = [&](const Error& other) { return other.where.key == found.where.key; };
  if (std::none_of(faults_.begin(), faults_.end(), same_key)) faults_.push_back(std::move(found));
}

std::vector<Error> Map::faults() {
  for (const auto& entry : node_) {
    const std::string& word = entry.first.Scalar();
    if (std::find(known_.begin(), known_.end(), word) != known_.end()) continue;
    const std::vector<std::string_view> candidates(known_.begin(), known_.end());
    const std::string near = nearest(word, candidates);
    fault(word, "there is no such key", near.empty() ? "" : "did you mean " + near + "?");
  }
  return faults_;
}

std::optional<Error> Map::finish() {
  const auto all = faults();
  return all.empty() ? std::nullopt : std::optional(all.front());
}

Place Map::place(std::string_view key) const {
  Place where{.file = file_, .line = {}, .frame = {}, .key = path_};
  if (node_) where.line = line_of(node_.Mark());
  if (!key.empty()) {
    if (!where.key.empty()) where.key += '.';
    where.key += shortened(key);
  }
  for (const auto& entry : node_) {
    if (entry.first.Scalar() == key) where.line = line_of(entry.first.Mark());
  }
  return where;
}

}  // namespace rangecheck::yaml
