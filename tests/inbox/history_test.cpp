// SPDX-License-Identifier: MIT
// What a run leaves in the history.
#include <doctest/doctest.h>

#include "history/store.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

std::vector<history::Dated> kept(const Fixture& fixture) {
  const auto store = history::Store::open_existing(history_file(fixture.folder() / "out"));
  REQUIRE(store);
  const auto found = store->of_student("s-0001");
  REQUIRE(found);
  return *found;
}

TEST_CASE("every grade is kept with the values of its report, and none that was set aside") {
  const Fixture fixture;
  fixture.add_good("a");
  fixture.add_broken("b");
  const auto night = run_whole(fixture.job());
  REQUIRE(night);
  const auto history = kept(fixture);
  REQUIRE(history.size() == 1);
  const auto& record = history.front().record;
  const auto& graded = night->graded.front();
  CHECK(record.submission == "a");
  CHECK(record.club == "7-iron");
  CHECK(record.percent == graded.grade.percent);
  REQUIRE(record.checks.size() == graded.grade.results.size());
  std::size_t values = 0;
  for (std::size_t i = 0; i < record.checks.size(); ++i) {
    const auto& result = graded.grade.results[i];
    CHECK(record.checks[i].id == result.check.id);
    CHECK(record.checks[i].verdict == result.verdict);
    if (!record.checks[i].value_si) continue;
    ++values;
    CHECK(record.checks[i].value_si == result.value_si);
    CHECK(record.checks[i].standard_uncertainty_si == result.standard_uncertainty_si);
  }
  CHECK(values > 10);
}

TEST_CASE("the same night again adds nothing to the history, a mended film does") {
  const Fixture fixture;
  fixture.add_good("a");
  REQUIRE(run(fixture.job()));
  const auto first = kept(fixture);
  REQUIRE(run(fixture.job()));
  CHECK(kept(fixture).front().record == first.front().record);
  CHECK(kept(fixture).front().recorded == first.front().recorded);
  fixture.add_good("c");
  REQUIRE(run(fixture.job()));
  CHECK(kept(fixture).size() == 2);
}

TEST_CASE("a history that can't be opened stops the run before anything is graded") {
  const Fixture fixture;
  fixture.add_good("a");
  fs::create_directories(fixture.folder() / "elsewhere");
  fs::create_directories(fixture.folder() / "out");
  fs::create_symlink(fixture.folder() / "elsewhere/history.sqlite",
                     fixture.folder() / "out/history.sqlite");
  const auto night = run(fixture.job());
  REQUIRE_FALSE(night);
  CHECK(night.error().fault == Fault::io);
  CHECK(fixture.files("elsewhere").empty());
  CHECK_FALSE(fs::exists(fixture.folder() / "out/students"));
}

}  // namespace
}  // namespace rangecheck::inbox
