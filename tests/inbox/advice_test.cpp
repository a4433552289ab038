// SPDX-License-Identifier: MIT
// The sample inbox on German pages.
#include <doctest/doctest.h>

#include <regex>

#include "all_written.hpp"
#include "inbox/inbox.hpp"
#include "night.hpp"
#include "report/html.hpp"
#include "report/report.hpp"
#include "scratch.hpp"

namespace rangecheck::inbox {
namespace {

TEST_CASE("German pages of the sample inbox say nothing of the profiles in English") {
  const test::Scratch scratch;
  const std::filesystem::path source = RANGECHECK_SOURCE_DIR;
  Job job;
  job.inbox = source / "samples/inbox";
  job.profiles = source / "profiles";
  job.roster = source / "samples/roster.csv";
  job.out = scratch.path / "out";
  const auto night = run_whole(job);
  REQUIRE(night);
  const auto written = test::all_written(*grade::load_profiles(job.profiles));
  const auto& german = shipped_words("de");
  const std::regex marked("<span lang=\"([^\"]*)\">([^<]*)</span>");
  std::size_t told = 0;
  for (const auto& graded : night->graded) {
    CAPTURE(graded.submission);
    const std::string page = report::student_html(graded, "in", german);
    for (const auto& sentence : written) {
      // Single words stand in what is to be written into a manifest as well.
      if (sentence.find(' ') == std::string::npos) continue;
      CAPTURE(sentence);
      CHECK(page.find(report::html::escaped(sentence)) == std::string::npos);
    }
    for (const auto& [sentence, translation] : german.advice())
      told += page.find(report::html::escaped(translation)) != std::string::npos;
    for (std::sregex_iterator span(page.begin(), page.end(), marked), end; span != end; ++span) {
      CAPTURE(span->str());
      CHECK_FALSE(written.contains((*span)[2]));
    }
    CHECK(page.find("verglichen mit: " + german.tell(graded.grade.profile_title).text + "</p>") !=
          std::string::npos);
  }
  CHECK(night->graded.size() > 20);
  CHECK(told > 100);
}

}  // namespace
}  // namespace rangecheck::inbox
