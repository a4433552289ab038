// SPDX-License-Identifier: MIT
#include "base/text.hpp"

#include <doctest/doctest.h>

#include <array>

#include "base/result.hpp"

using namespace rangecheck;

TEST_CASE("nearest: a slip of the pen is mended, another word is not") {
  constexpr std::array<std::string_view, 3> keys = {"handedness", "stature", "shoe"};
  CHECK(nearest("handednes", keys) == "handedness");
  CHECK(nearest("statur", keys) == "stature");
  CHECK(nearest("shoe", keys) == "shoe");
  CHECK(nearest("weather", keys) == "");
  CHECK(nearest("", keys) == "");
  CHECK(nearest(std::string(100000, 'x'), keys) == "");
}

TEST_CASE("trim, split, lower, kebab") {
  CHECK(trim(" \t a b\r\n") == "a b");
  CHECK(trim("  ") == "");
  CHECK(split("a;;b", ';') == std::vector<std::string_view>{"a", "", "b"});
  CHECK(split("", ';') == std::vector<std::string_view>{""});
  CHECK(lower("EU 42") == "eu 42");
  CHECK(kebab(" Lead  Knee_flexion- ") == "lead-knee-flexion");
  CHECK(kebab("7-iron") == "7-iron");
}

TEST_CASE("numbers: finite decimals only") {
  CHECK(parse_number(" +1.5e2 ") == 150.0);
  CHECK(parse_number("-0.25") == -0.25);
  for (const char* text : {"", "1,5", "0x10", "nan", "inf", "1e999", "1 2", "+-1", "12px"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_number(text));
  }
}

TEST_CASE("printable: nothing reaches a terminal that moves, breaks or turns the line") {
  CHECK(printable("Zoë") == "Zoë");
  CHECK(printable("a\nb\tc") == "a\\nb\\tc");
  CHECK(printable("\x1b[2J") == "\\x1b[2J");
  CHECK(printable(std::string_view("\0", 1)) == "\\x00");
  CHECK(printable("\xe2\x80\xae"
                  "gnp.exe") == "\\xe2\\x80\\xaegnp.exe");
  CHECK(printable("\xc0\xaf") == "\\xc0\\xaf");
  CHECK(printable("\xed\xa0\x80") == "\\xed\\xa0\\x80");
  CHECK(printable("\xef\xbf\xbe") == "\\xef\\xbf\\xbe");
  CHECK(printable("\xd8\x9c") == "\\xd8\\x9c");
  CHECK(printable("ok\xff") == "ok\\xff");
  CHECK(printable("cut \xe2\x82") == "cut \\xe2\\x82");
}

TEST_CASE("quoted: shortened between characters") {
  CHECK(quoted("abc") == "\"abc\"");
  const std::string text = rangecheck::quoted(std::string(79, 'a') + "ë and more");
  CHECK(text == '"' + std::string(79, 'a') + "…\"");
}

TEST_CASE("an error is written with what is known of its place") {
  const Error whole{Fault::bad_value, "isn't a number",
                    Place{.file = "a.json", .line = 4, .frame = 3, .key = "/0/x"}, "mend it"};
  CHECK(to_string(whole) == "a.json:4: frame 3: /0/x: isn't a number (mend it)");
  const Error bare{Fault::io, "no room", {}, ""};
  CHECK(to_string(bare) == "no room");
  const Error frame{Fault::bad_value, "is odd",
                    Place{.file = "", .line = {}, .frame = 0, .key = ""}, ""};
  CHECK(to_string(frame) == "frame 0: is odd");
}
