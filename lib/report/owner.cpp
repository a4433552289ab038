// SPDX-License-Identifier: MIT
// Whose a written report is, for those who look for all reports of a student.
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

constexpr std::string_view student_line = "student: ";

}  // namespace

std::optional<std::string> student_of_result(const std::string& document) {
  const auto read = nlohmann::json::parse(document, nullptr, false);
  if (!read.is_object() || read.value("format", nlohmann::json()) != "rangecheck-result")
    return std::nullopt;
  const auto student = read.find("student");
  if (student == read.end() || !student->is_object()) return std::nullopt;
  const auto id = student->find("id");
  if (id == student->end() || !id->is_string()) return std::nullopt;
  return id->get<std::string>();
}

std::string set_aside_text(const SetAside& set_aside) {
  std::string text = printable(to_string(set_aside.error)) + "\n";
  if (!set_aside.student.empty())
    text += std::string(student_line) + printable(set_aside.student) + "\n";
  return text;
}

std::optional<std::string> student_of_set_aside(std::string_view text) {
  // The second line, and nothing after it.
  const auto lines = split(text, '\n');
  if (lines.size() != 3 || !lines[1].starts_with(student_line)) return std::nullopt;
  return std::string(lines[1].substr(student_line.size()));
}

}  // namespace rangecheck::report
