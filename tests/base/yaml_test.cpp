// SPDX-License-Identifier: MIT
#include "base/yaml.hpp"

#include <array>

#include "close.hpp"

using namespace rangecheck;

namespace {

yaml::Map map_of(const std::string& text) {
  return yaml::Map(*yaml::parse(text, "a.yaml"), "a.yaml", "golfer");
}

std::string parse_error(const std::string& text) {
  return to_string(yaml::parse(text, "a.yaml").error());
}

constexpr std::array<std::string_view, 3> colours = {"red", "green", "blue"};

}  // namespace

TEST_CASE("a YAML map gives its values") {
  auto map = map_of("name: Ann\nage: 41\nleft: yes\ncolour: red\nstature: 5 ft 10 in\n");
  CHECK(map.text("name") == "Ann");
  CHECK(map.number("age") == 41);
  CHECK(map.flag("left", false));
  CHECK(map.flag("right", true));
  CHECK(map.choice("colour", colours) == "red");
  CHECK_CLOSE(map.optional_quantity("stature", Dimension::length)->si, 1.778, 1e-12);
  CHECK_FALSE(map.optional_text("shoe"));
  CHECK_FALSE(map.optional_number("weight"));
  CHECK_FALSE(map.has("shoe"));
  CHECK(map.has("name"));
  CHECK_FALSE(map.finish());
}

TEST_CASE("the first fault of a YAML map is kept, with its line and path") {
  auto map = map_of("name: Ann\nage: old\nleft: maybe\n");
  map.number("age");
  map.flag("left", false);
  CHECK(to_string(*map.finish()) == "a.yaml:2: golfer.age: \"old\" isn't a number");

  auto flag = map_of("left: maybe\n");
  CHECK(flag.flag("left", true));
  CHECK(to_string(*flag.finish()) == "a.yaml:1: golfer.left: \"maybe\" is neither true nor false");

  auto missing = map_of("name: Ann\n");
  missing.text("id");
  CHECK(to_string(*missing.finish()) == "a.yaml:1: golfer.id: is missing (add this key)");

  auto choice = map_of("\ncolour: gren\n");
  choice.choice("colour", colours);
  CHECK(to_string(*choice.finish()) ==
        "a.yaml:2: golfer.colour: \"gren\" should be red, green or blue (did you mean green?)");

  auto quantity = map_of("stature: 178\n");
  quantity.optional_quantity("stature", Dimension::length);
  CHECK(to_string(*quantity.finish()) ==
        "a.yaml:1: golfer.stature: \"178\" isn't a length: it has no unit "
        "(write a number and a unit: in, ft, m, cm, mm)");

  auto empty = map_of("name:\n");
  empty.optional_text("name");
  CHECK(to_string(*empty.finish()) ==
        "a.yaml:1: golfer.name: has no value (write one, or leave the key out)");

  auto list = map_of("name: [a]\n");
  list.text("name");
  CHECK(to_string(*list.finish()) == "a.yaml:1: golfer.name: should be a single value, is a list");
}

TEST_CASE("an unknown key is named with its line and the nearest known one") {
  auto map = map_of("name: Ann\nstatur: 178 cm\n");
  map.text("name");
  map.optional_quantity("stature", Dimension::length);
  CHECK(to_string(*map.finish()) ==
        "a.yaml:2: golfer.statur: there is no such key (did you mean stature?)");
  auto far = map_of("weather: wet\n");
  far.optional_text("name");
  CHECK(to_string(*far.finish()) == "a.yaml:1: golfer.weather: there is no such key");
}

TEST_CASE("what isn't a map, or isn't there, is a fault and not a crash") {
  auto scalar = map_of("just words\n");
  CHECK_FALSE(scalar.has("name"));
  CHECK(to_string(*scalar.finish()) ==
        "a.yaml:1: golfer: should be a map of keys and values, is \"just words\"");
  auto nothing = map_of("");
  CHECK(to_string(*nothing.finish()).find("is nothing") != std::string::npos);
  auto outer = map_of("a: 1\n");
  yaml::Map absent(outer.node("b"), "a.yaml", "b");
  CHECK(absent.finish()->where.key == "b");
}

TEST_CASE("YAML that is not accepted") {
  CHECK(parse_error("a: &x 1\nb: *x\n") ==
        "a.yaml:2: YAML aliases (*name) are not accepted (write the value out)");
  CHECK(parse_error("v:\n  - a: 1\n    a: 2\n") ==
        "a.yaml:3: a: this key stands here twice (keep one of the two)");
  CHECK(parse_error("a: 1\n---\nb: 2\n").find("more than one YAML document") != std::string::npos);
  CHECK(parse_error("a: [1, 2\n").find("isn't valid YAML") != std::string::npos);
  CHECK(parse_error("[a]: 1\n") == "a.yaml:1: a key has to be a plain word");
  CHECK(parse_error(std::string(100000, '[')) == "a.yaml:1: is nested more than 32 deep");
  CHECK(parse_error(std::string((1u << 20) + 1, ' ')).find("1 MiB") != std::string::npos);
}
