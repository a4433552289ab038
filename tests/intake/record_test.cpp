// SPDX-License-Identifier: MIT
#include "intake/record.hpp"

#include <doctest/doctest.h>

#include "intake/base64.hpp"
#include "intake/files.hpp"

namespace rangecheck::intake {
namespace {

Error refused(const std::string& line) {
  const auto record = read_record(line, 7);
  REQUIRE_FALSE(record);
  CHECK(record.error().submission == "stdin:7");
  return record.error().error;
}

}  // namespace

TEST_CASE("base64: RFC 4648, section 10, and back") {
  const std::pair<std::string, std::string> vectors[] = {{"", ""},
                                                         {"f", "Zg=="},
                                                         {"fo", "Zm8="},
                                                         {"foo", "Zm9v"},
                                                         {"foob", "Zm9vYg=="},
                                                         {"fooba", "Zm9vYmE="},
                                                         {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : vectors) {
    CHECK(base64(bytes) == text);
    CHECK(from_base64(text) == bytes);
  }
  std::string all;
  for (int i = 255; i >= 0; --i) all += static_cast<char>(i);
  CHECK(from_base64(base64(all)) == all);
  for (const auto* no : {"Z", "Zg", "Zg=", "Zh==", "Zm9=", "Zg==Zg==", "Z===", "====", "Zm 9",
                         "Zm9v\n", "Zm9-", "Zm9\x80"}) {
    CAPTURE(no);
    CHECK_FALSE(from_base64(no));
  }
}

TEST_CASE("record: written and read again it is the same") {
  Record record;
  record.id = "mära (2)";
  record.files = {{"submission.yaml", Result<std::string>("student: \"x\"\n")},
                  {"a.json.gz", Result<std::string>("\x1f\x8b\xff")},
                  {"frames/1.json", Result<std::string>(std::string("\0", 1))},
                  {"gone", Result<std::string>(Error{Fault::io, "is gone", {}, "look"})},
                  {"film.mp4", std::nullopt},
                  {"empty/", std::nullopt}};
  record.earlier.emplace_back();
  record.earlier[0].id = "before";
  record.earlier[0].loose = true;
  record.earlier[0].files = {{"a_b_full_face-on.json", Result<std::string>("[]")}};
  const auto line = record_line(record);
  REQUIRE(line);
  CHECK(line->ends_with("}\n"));
  CHECK(line->find('\n') == line->size() - 1);
  CHECK(line->find(R"("a.json.gz":{"base64":"H4v/"})") != std::string::npos);
  const auto again = read_record(*line, 1);
  REQUIRE(again);
  CHECK(again->id == record.id);
  CHECK_FALSE(again->loose);
  REQUIRE(again->files.size() == record.files.size());
  CHECK(**again->files.at("a.json.gz") == "\x1f\x8b\xff");
  CHECK(**again->files.at("frames/1.json") == std::string("\0", 1));
  CHECK(to_string((*again->files.at("gone")).error()) == "is gone (look)");
  CHECK((*again->files.at("gone")).error().fault == Fault::io);
  CHECK_FALSE(again->files.at("empty/"));
  REQUIRE(again->earlier.size() == 1);
  CHECK(again->earlier[0].loose);
  CHECK(*record_line(*again) == *line);
}

TEST_CASE("record: a name that JSON can't hold") {
  Record record;
  record.id = "a";
  record.files = {{"\xff.mp4", std::nullopt}};
  REQUIRE(record_line(record));  // of no matter, so it is left out
  CHECK(record_line(record)->find("mp4") == std::string::npos);
  record.files["\xff.json"] = Result<std::string>("[]");
  CHECK(
      to_string(record_line(record).error()) ==
      "a: \"\\xff.json\" can't be the name of a file in a record (rename it in letters of UTF-8)");
}

TEST_CASE("record: what is none says where, and what is near") {
  CHECK(
      to_string(refused(R"({"format":"rangecheck-submission","version":1,"id":"a","file":{}})")) ==
      "stdin:7: /file: there is no such key (did you mean files?)");
  CHECK(to_string(refused("{}")) ==
        "stdin:7: is no submission as a record (rangecheck pack writes records)");
  CHECK(to_string(refused(R"({"format":"rangecheck-submission","version":1,"id":"a)")) ==
        "stdin:7: is cut short: the JSON in it doesn't end (send the file again)");
  CHECK(to_string(too_long_record(3).error) ==
        "stdin:3: is longer than 256 MiB (cut the films to the swing itself)");
}

TEST_CASE("files that a record carries are as in a folder") {
  const Contents contents{{"a.json", Result<std::string>("x")},
                          {"b/1.json", Result<std::string>("1")},
                          {"b/c/2.json", Result<std::string>("2")},
                          {"b.json", std::nullopt},
                          {"empty/", std::nullopt}};
  const CarriedFiles files(contents);
  for (const auto* path :
       {"a.json", "./a.json", "b", "b/", "b/c", "b//1.json", "empty", ".", "b.json"}) {
    CAPTURE(path);
    CHECK(files.has(path));
  }
  for (const auto* path : {"a", "a.jso", "b/c/2", "c", "a.json/b"}) CHECK_FALSE(files.has(path));
  for (const auto* path : {"b", "b/", "b/c", "empty", "."}) CHECK(files.is_folder(path));
  for (const auto* path : {"a.json", "b.json", "b/1.json", "none"})
    CHECK_FALSE(files.is_folder(path));
  using Names = std::vector<std::string>;
  CHECK(*files.names_in("", "") == Names{"a.json", "b", "b.json", "empty"});
  CHECK(*files.names_in("b", "") == Names{"1.json", "c"});
  CHECK(files.names_in("empty", "")->empty());
  CHECK(*files.read("b/c/../1.json", "n", 10) == "1");
  CHECK(to_string(files.read("a.json", "n", 0).error()) ==
        "n: is larger than 0 MiB (check that it is the right file)");
  CHECK(to_string(files.read("b", "n", 10).error()) == "n: isn't a file");
}

}  // namespace rangecheck::intake
