// SPDX-License-Identifier: MIT
#include "intake/record.hpp"

#include <simdjson.h>

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>

#include "base/text.hpp"
#include "intake/base64.hpp"
#include "intake/files.hpp"
#include "intake/json_text.hpp"
#include "intake/origin.hpp"
#include "intake/spot.hpp"
#include "intake/submission.hpp"
#include "intake/value.hpp"

namespace rangecheck::intake {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view record_format = "rangecheck-submission";
constexpr std::string_view set_aside_format = "rangecheck-set-aside";
constexpr int version = 1;

bool is_utf8(std::string_view text) { return simdjson::validate_utf8(text.data(), text.size()); }

Json file_entry(const std::optional<Result<std::string>>& content) {
  if (!content) return nullptr;
  if (!*content) {
    const Error& error = content->error();
    return {{"error",
             {{"fault", name_of(error.fault)}, {"what", error.what}, {"remedy", error.remedy}}}};
  }
  const std::string& bytes = **content;
  if (is_utf8(bytes)) return bytes;
  return {{"base64", base64(bytes)}};
}

/// Throws Refusal.
Json entry_of(const Record& record) {
  Json files = Json::object();
  for (const auto& [path, content] : record.files) {
    if (is_utf8(path)) {
      files[path] = file_entry(content);
    } else if (content) {
      refuse(Spot(printable(record.id)), Fault::bad_value,
             rangecheck::quoted(path) + " can't be the name of a file in a record",
             "rename it in letters of UTF-8");
    }
  }
  Json entry = {{"format", record_format}, {"version", version}, {"id", record.id}};
  if (record.loose) entry["loose"] = true;
  entry["files"] = std::move(files);
  if (record.earlier.empty()) return entry;
  Json earlier = Json::array();
  for (const Record& each : record.earlier) earlier.push_back(entry_of(each));
  entry["earlier"] = std::move(earlier);
  return entry;
}

/// An object whose keys are looked up and then held against those that were asked for.
class Keys {
 public:
  Keys(Value object, const Spot& where) : object_(object), where_(where) {
    if (!object.is_object()) refuse(where, Fault::bad_value, "should be an object");
  }
  /// Refuses a key that stands here twice, and one of no meaning.
  void only(std::initializer_list<std::string_view> known) const {
    std::set<std::string_view> seen;
    for (const auto [key, value] : object_.members()) {
      if (!seen.insert(key).second)
        refuse(where_.at(key), Fault::bad_value, "this key stands here twice", "remove one");
      if (std::find(known.begin(), known.end(), key) != known.end()) continue;
      const std::vector<std::string_view> names(known);
      const std::string near = nearest(key, names);
      refuse(where_.at(key), Fault::bad_value, "there is no such key",
             near.empty() ? "" : "did you mean " + near + "?");
    }
  }
  Value value(std::string_view key) const {
    const auto found = object_.find(key);
    if (!found) refuse(where_, Fault::bad_value, "has no " + rangecheck::quoted(key));
    return *found;
  }
  std::string text(std::string_view key) const {
    const auto text = value(key).text();
    if (!text) refuse(where_.at(key), Fault::bad_value, "should be a text");
    return std::string(*text);
  }
  std::string some_text(std::string_view key) const {
    std::string some = text(key);
    if (some.empty()) refuse(where_.at(key), Fault::bad_value, "is empty");
    return some;
  }
  std::optional<int> number_or_null(std::string_view key, int least) const {
    const Value found = value(key);
    if (found.kind() == Kind::null) return std::nullopt;
    const auto whole = found.whole();
    if (!whole || *whole < least || *whole > std::numeric_limits<int>::max())
      refuse(where_.at(key), Fault::bad_value, "should be a whole number or null");
    return static_cast<int>(*whole);
  }
  bool has(std::string_view key) const { return object_.has(key); }
  bool flag(std::string_view key) const {
    if (!has(key)) return false;
    if (value(key).kind() != Kind::flag)
      refuse(where_.at(key), Fault::bad_value, "should be true or false");
    return value(key).is_true();
  }

 private:
  Value object_;
  const Spot& where_;
};

Fault fault_of(const Keys& keys, const Spot& where) {
  const std::string name = keys.text("fault");
  const auto fault = find_fault(name);
  if (!fault)
    refuse(where.at("fault"), Fault::bad_value, rangecheck::quoted(name) + " is no kind of fault");
  return *fault;
}

Result<std::string> content_of(Value file, const Spot& where) {
  if (const auto text = file.text()) return std::string(*text);
  const Keys keys(file, where);
  if (keys.has("error")) {
    keys.only({"error"});
    const Spot inside = where.at("error");
    const Keys error(keys.value("error"), inside);
    error.only({"fault", "what", "remedy"});
    return Error{fault_of(error, inside), error.some_text("what"), {}, error.text("remedy")};
  }
  keys.only({"base64"});
  auto bytes = from_base64(keys.text("base64"));
  if (!bytes) refuse(where.at("base64"), Fault::bad_value, "isn't base64 (RFC 4648, section 4)");
  return *std::move(bytes);
}

/// Why no file of a submission can be called that, if so. Every file has one name only.
std::optional<std::string> why_no_path(std::string_view path) {
  if (auto why = why_foreign(std::string(path))) return why;
  const std::string_view file = path.ends_with('/') ? path.substr(0, path.size() - 1) : path;
  for (const auto part : split(file, '/')) {
    if (part.empty() || part == ".") return "isn't written in the shortest way";
  }
  return std::nullopt;
}

Contents contents_of(Value files, bool loose, const Spot& where) {
  if (!files.is_object()) refuse(where, Fault::bad_value, "should be an object");
  Contents contents;
  for (const auto [path, file] : files.members()) {
    const Spot here = where.at(path);
    if (const auto why = why_no_path(path))
      refuse(here, Fault::bad_value, rangecheck::quoted(path) + ' ' + *why);
    if (loose && path.find('/') != std::string_view::npos)
      refuse(here, Fault::bad_value, "loose files are in no folder");
    std::optional<Result<std::string>> content;
    if (file.kind() != Kind::null) content = content_of(file, here);
    if (content && path.ends_with('/'))
      refuse(here, Fault::bad_value, "is a folder by its name, and has what a file has");
    if (loose && !content) refuse(here, Fault::bad_value, "is missing what is in it");
    if (!contents.emplace(path, std::move(content)).second)
      refuse(here, Fault::bad_value, "this file stands here twice", "remove one");
  }
  if (loose && contents.empty()) refuse(where, Fault::bad_value, "names no file");
  return contents;
}

void refuse_other_version(const Keys& keys, const Spot& where) {
  if (keys.value("version").whole() == version) return;
  refuse(where.at("version"), Fault::bad_value, "is of a version that this program doesn't know",
         "grade it with the rangecheck that wrote it");
}

Record record_of(Value value, const Spot& where, bool may_have_earlier) {
  const Keys keys(value, where);
  if (may_have_earlier)
    keys.only({"format", "version", "id", "loose", "files", "earlier"});
  else
    keys.only({"format", "version", "id", "loose", "files"});
  if (keys.text("format") != record_format)
    refuse(where.at("format"), Fault::bad_value, "should be " + std::string(record_format));
  refuse_other_version(keys, where);
  Record record;
  record.id = keys.text("id");
  if (const auto why = why_unsafe(record.id))
    refuse(where.at("id"), Fault::bad_value,
           rangecheck::quoted(record.id) + " can't be the name of a submission: it " + *why,
           "rename it");
  record.loose = keys.flag("loose");
  record.files = contents_of(keys.value("files"), record.loose, where.at("files"));
  if (!keys.has("earlier")) return record;
  const Spot list = where.at("earlier");
  if (!keys.value("earlier").is_list()) refuse(list, Fault::bad_value, "should be a list");
  std::set<std::string> ids{record.id};
  for (const Value each : keys.value("earlier").list()) {
    const Spot here = list.at(record.earlier.size());
    record.earlier.push_back(record_of(each, here, false));
    if (!ids.insert(record.earlier.back().id).second)
      refuse(here.at("id"), Fault::bad_value, "this submission stands in the record twice");
  }
  return record;
}

NoRecord set_aside_of(Value value, const Spot& where) {
  const Keys keys(value, where);
  keys.only({"format", "version", "submission", "fault", "what", "file", "line", "frame", "key",
             "remedy"});
  refuse_other_version(keys, where);
  NoRecord out{keys.some_text("submission"),
               {fault_of(keys, where), keys.some_text("what"), {}, keys.text("remedy")}};
  Place& place = out.error.where;
  place.file = keys.text("file");
  place.line = keys.number_or_null("line", 1);
  place.frame = keys.number_or_null("frame", 0);
  place.key = keys.text("key");
  return out;
}

/// Parses one document on one line. A Document of landmarks would be bounded and mended in ways
/// that a record must not be: what a text in it holds is none of its business.
struct Parsed {
  simdjson::dom::parser parser;
  simdjson::dom::element root;

  Parsed(std::string_view line, const Spot& where) {
    if (parser.allocate(line.size(), deepest) || parser.parse(line.data(), line.size()).get(root))
      refuse_json(line, false, where);
  }
};

NoRecord no_record(Error error, std::size_t number) {
  error.where.file = "stdin";
  error.where.line = static_cast<int>(number);
  return {"stdin:" + std::to_string(number), std::move(error)};
}

}  // namespace

Result<std::string> record_line(const Record& record) {
  try {
    std::string line = entry_of(record).dump() + '\n';
    if (line.size() <= longest_record) return line;
    refuse(Spot(printable(record.id)), Fault::bad_value, "is larger than 256 MiB as a record",
           "cut the films to the swing itself");
  } catch (Refusal& refusal) {
    return std::move(refusal.error);
  }
}

Result<Record, NoRecord> read_record(std::string_view line, std::size_t number) {
  const Spot where("stdin");
  try {
    const Parsed parsed(line, where);
    const Value root(parsed.root);
    const auto format = root.find("format");
    if (format && format->text() == set_aside_format) return set_aside_of(root, where);
    if (!format || format->text() != record_format)
      refuse(where, Fault::bad_value, "is no submission as a record",
             "rangecheck pack writes records");
    return record_of(root, where, true);
  } catch (Refusal& refusal) {
    return no_record(std::move(refusal.error), number);
  }
}

NoRecord too_long_record(std::size_t number) {
  return no_record(
      {Fault::unreadable, "is longer than 256 MiB", {}, "cut the films to the swing itself"},
      number);
}

}  // namespace rangecheck::intake
