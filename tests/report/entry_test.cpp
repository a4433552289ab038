// SPDX-License-Identifier: MIT
// What is kept of a submission for the tables, as bytes.
#include "report/entry.hpp"

#include <doctest/doctest.h>

#include "base/compress.hpp"
#include "example.hpp"

namespace rangecheck::report {
namespace {

constexpr std::size_t any_size = std::size_t{1} << 20;

TEST_CASE("entries come back from their bytes as they were") {
  const Entry entry = entry_of(example_graded());
  REQUIRE_FALSE(entry.checks.empty());
  const auto summary = unpacked_summary(packed(entry.summary));
  REQUIRE(summary);
  CHECK(*summary == entry.summary);
  const auto checks = unpacked_checks(packed(entry.checks));
  REQUIRE(checks);
  CHECK(*checks == entry.checks);
  CHECK(packed(entry.checks) == packed(*checks));
}

TEST_CASE("bytes that are not whole are no entry, wherever they end") {
  const std::string bytes = *decompressed(packed(entry_of(example_graded()).summary), any_size);
  for (std::size_t size = 0; size < bytes.size(); ++size) {
    CAPTURE(size);
    CHECK_FALSE(unpacked_summary(compressed(std::string_view(bytes).substr(0, size))));
  }
  CHECK_FALSE(unpacked_summary(compressed(bytes + '\0')));
  CHECK(unpacked_summary(compressed(bytes)));
  const auto error = unpacked_summary("damaged").error();
  CHECK(error.fault == Fault::io);
  CHECK(to_string(error) ==
        "history.sqlite: what is kept of a submission for the tables is damaged (grade once with "
        "--redo all)");
}

TEST_CASE("bytes that name no verdict there is are no entry") {
  Summary summary;
  summary.films = grade::FilmVerdict::not_known;
  std::string bytes = *decompressed(packed(summary), any_size);
  // Of an empty summary the last fields are the films' verdict and how many there are to work on.
  const std::size_t at = bytes.size() - sizeof(std::uint32_t) - sizeof(grade::FilmVerdict);
  REQUIRE(bytes[at] == static_cast<char>(grade::FilmVerdict::not_known));
  ++bytes[at];
  CHECK_FALSE(unpacked_summary(compressed(bytes)));
  bytes[at] = '\0';
  const auto good = unpacked_summary(compressed(bytes));
  REQUIRE(good);
  CHECK(good->films == grade::FilmVerdict::good);
}

}  // namespace
}  // namespace rangecheck::report
