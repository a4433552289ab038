// SPDX-License-Identifier: MIT
#include "base/instant.hpp"

#include <doctest/doctest.h>

namespace rangecheck {
namespace {

std::int64_t seconds(std::string_view text) {
  const auto instant = parse_instant(text);
  REQUIRE(instant);
  return instant->time_since_epoch().count();
}

TEST_CASE("instants, checked against the examples of RFC 3339, 5.8, and date(1)") {
  // RFC 3339, 5.8: the same instant in two zones.
  CHECK(seconds("1996-12-19T16:39:57-08:00") == seconds("1996-12-20T00:39:57Z"));
  CHECK(seconds("1990-12-31T15:59:60-08:00") == seconds("1990-12-31T23:59:60Z"));
  // RFC 3339, 5.8: half-hours and parts of seconds.
  CHECK(seconds("1937-01-01T12:00:27.87+00:20") == seconds("1937-01-01T11:40:27Z"));
  // date -u -d … +%s
  CHECK(seconds("1970-01-01") == 0);
  CHECK(seconds("2026-03-14T18:22:00+02:00") == 1773505320);
  CHECK(seconds("2026-03-14 16:22Z") == 1773505320);
  CHECK(seconds("2024-02-29") == 1709164800);
}

TEST_CASE("instants: what is none") {
  for (const auto* text : {"",
                           "2026",
                           "2026-02-29",
                           "2026-02-30",
                           "2026-13-01",
                           "2026-00-10",
                           "2026-03-00",
                           "2026-03-14T",
                           "2026-03-14T24:00",
                           "2026-03-14T18:60",
                           "2026-03-14T18:22:61",
                           "2026-03-14T18:22+15:00",
                           "2026-03-14T18:22+",
                           "2026-03-14T18:22.5",
                           "2026-03-14X18:22",
                           "2026-03-14T18:22:00.",
                           "2026-03-14T18:22:00.5x",
                           "2026-3-14",
                           "20260314",
                           "+026-03-14"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_instant(text));
  }
}

}  // namespace
}  // namespace rangecheck
