// SPDX-License-Identifier: MIT
#include "report/for_scripts.hpp"
#include "report/json_parts.hpp"

namespace rangecheck::report {
namespace {

/// What documents say of an error, appended to `entry`.
void add_error(Json& entry, const Error& error) {
  entry["fault"] = name_of(error.fault);
  entry["what"] = error.what;
  entry["file"] = error.where.file;
  entry["line"] = error.where.line ? Json(*error.where.line) : Json();
  entry["frame"] = error.where.frame ? Json(*error.where.frame) : Json();
  entry["key"] = error.where.key;
  entry["remedy"] = error.remedy;
}

}  // namespace

std::string set_aside_json(const SetAside& set_aside, std::optional<int> indent) {
  Json document = {{"format", set_aside.waits ? "rangecheck-waiting" : "rangecheck-set-aside"},
                   {"version", format_version},
                   {"submission", set_aside.submission}};
  add_error(document, set_aside.error);
  return written(document, indent);
}

std::string error_json(const Error& error, const std::optional<std::string>& submission) {
  Json document = {{"format", "rangecheck-error"},
                   {"version", format_version},
                   {"submission", submission ? Json(*submission) : Json()}};
  add_error(document, error);
  // ASCII only: it may be shown on a terminal, which other characters could turn about.
  return document.dump(-1, ' ', true, Json::error_handler_t::replace) + "\n";
}

}  // namespace rangecheck::report
