// SPDX-License-Identifier: MIT
#include "report/agreement.hpp"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "close.hpp"
#include "history/readings.hpp"
#include "report/cells.hpp"

namespace rangecheck::report {
namespace {

using grade::Verdict;
using history::CheckRecord;
using history::Record;

constexpr double inch = 0.0254;
const Compared names{"a", "b.csv"};

CheckRecord width(double value_in, double u_in, Verdict verdict) {
  return {.id = "stance-width",
          .title = "Stance width",
          .position = Position::address,
          .dimension = Dimension::length,
          .unit = "in",
          .verdict = verdict,
          .value_si = value_in * inch,
          .standard_uncertainty_si = u_in * inch,
          .band = {}};
}

CheckRecord turn(std::optional<double> value_rad) {
  return {.id = "top/shoulder-turn",
          .title = "Shoulder turn",
          .position = Position::top,
          .dimension = Dimension::angle,
          .unit = "deg",
          .verdict = Verdict::unsure,
          .value_si = value_rad,
          .band = {}};
}

Record record(const std::string& id, const std::string& student, double percent,
              std::vector<CheckRecord> checks) {
  Record one;
  one.submission = id;
  one.student = student;
  one.percent = percent;
  one.percent_uncertainty = 4;
  one.checks = std::move(checks);
  return one;
}

/// Differences of the widths: 0, 1, 2 and 1 in; of the grades: 2, 0, 4 and 2 points.
history::Comparison example() {
  const std::vector<Record> first = {
      record("s-1", "x", 70, {width(12, 1, Verdict::low), turn(1.5)}),
      record("s-2", "y", 80, {width(14, 1, Verdict::inside), turn(std::nullopt)}),
      record("s-3", "z", 90, {width(15, 1, Verdict::inside)}),
      record("s-4", "z", 60, {width(17, 1, Verdict::high)}), record("s-5", "w", 50, {})};
  const std::vector<Record> second = {
      record("s-1", "x", 72, {width(12, 0.5, Verdict::low), turn(1.6)}),
      record("s-2", "y", 80, {width(15, 0.5, Verdict::inside), turn(1.4)}),
      record("s-3", "z", 94, {width(17, 0.1, Verdict::high)}),
      record("s-4", "z", 62, {width(18, 0.5, Verdict::unsure)})};
  return history::compare(first, second);
}

TEST_CASE("agreement: the page of a small example") {
  // By hand: differences 0, 1, 2 and 1 have mean 1 and SD 0.816; t with 3 degrees of freedom is
  // 3.182, so ± 1.3, and 1.96 SD is 1.6. Two of three verdicts are the same, one of three would be
  // by chance: kappa is 1/2. Three of the four differences are within 1.96 times their u.
  CHECK(agreement_text(names, example()) == R"(first: a
second: b.csv
4 submissions in both, 1 in the first only (s-5), 0 in the second only.
They are of 3 students. What is read of one student is not independent, so the
intervals below are rather too narrow.
Of their checks 5 values can be compared; 0 were read by the first only, 1 by
the second only.

                             pairs second - first      95 % lie in   ICC      MDC
Address (p1)
  Stance width                  4   1.0 ± 1.3 in   -0.6 to 2.6 in  0.88   1.6 in
Grade                           4    2.0 ± 2.6 %    -1.2 to 5.2 %  0.98    3.2 %

Too few to say anything (fewer than 3 pairs): Shoulder turn (p4).

How to read it: for stance width (p1) the second reads 1.0 in more than the
first on average, and about 19 of 20 submissions anything from 0.6 in less to
2.6 in more. With 4 pairs these two ends are themselves only known to lie in
-5.3 to 0.3 in and in 1.7 to 7.3 in.
ICC is 1 where both read the same of every student, and near 0 or below where
they differ as much as students do (ICC(2,1), absolute agreement of single
readings). MDC is the minimal detectable change at 95 %: a student's change from
one swing to another has to be larger, or it may be the readings' scatter alone.

Of 4 differences where both state an uncertainty, 75 % are no larger than the
two allow, 1.96 √(u₁² + u₂²): 95 % would be if both say it rightly and share no
error.

Verdicts (inside, low, high, outside): both decide in 3 cases and say the same
in 67 % (Cohen's kappa 0.50 ± 0.61); only the first decides in 1, only the
second in 0. They differ most in stance width (p1) (1 of 3).
)");
}

TEST_CASE("agreement: the same films by another profile have grades and verdicts to compare") {
  const auto graded = [](double more, Verdict verdict) {
    std::vector<Record> all;
    for (int i = 0; i < 3; ++i)
      all.push_back(record(std::to_string(i), "x", 70 + 3 * i + more, {width(12 + i, 1, verdict)}));
    return all;
  };
  CHECK(agreement_text(names, history::compare(graded(0, Verdict::inside),
                                               graded(-2, Verdict::low))) == R"(first: a
second: b.csv
3 submissions in both, 0 in the first only, 0 in the second only.
They are of 1 student. What is read of one student is not independent, so the
intervals below are rather too narrow.
Of their checks 3 values can be compared; 0 were read by the first only, 0 by
the second only. All are the very same numbers: only verdicts and grades can
differ.

                             pairs second - first      95 % lie in   ICC      MDC
Grade                           3   -2.0 ± 0.0 %   -2.0 to -2.0 %  0.82    0.0 %

Verdicts (inside, low, high, outside): both decide in 3 cases and say the same
in 0 % (Cohen's kappa 0.00 ± 0.00); only the first decides in 0, only the second
in 0. They differ most in stance width (p1) (3 of 3).
)");
}

TEST_CASE("agreement: centimetres where they are asked for") {
  const auto text = agreement_text(names, example(), "cm");
  CHECK(text.find("2.5 ± 3.3 cm") != std::string::npos);
  CHECK(text.find(" in ") == text.find(" in both"));
}

TEST_CASE("agreement: a table for spreadsheets") {
  const auto text = agreement_csv(example());
  CHECK(text.starts_with("check,title,position,unit,pairs,students,first_only,second_only,bias,"));
  // Differences 0, 1, 2, 1 in: sd √(2/3), Student's t with 3 degrees of freedom 3.182.
  CHECK(text.find("\r\nstance-width,Stance width,address,in,4,3,0,0,1,-0.299228,2.29923,0.816497,"
                  "-0.600304,") != std::string::npos);
  CHECK(text.find("\r\ngrade,Grade,,%,4,3,0,0,2,") != std::string::npos);
  CHECK(text.find("\r\ntop/shoulder-turn,Shoulder turn,top,deg,1,1,0,1,,,") != std::string::npos);
}

TEST_CASE("agreement: a document for programs") {
  const auto document = nlohmann::json::parse(agreement_json(names, example()));
  CHECK(document["format"] == "rangecheck-agreement");
  CHECK(document["first"] == "a");
  CHECK(document["submissions"]["both"] == 4);
  CHECK(document["submissions"]["students"] == 3);
  CHECK(document["submissions"]["only_first"] == nlohmann::json{"s-5"});
  const auto& check = document["checks"][0];
  CHECK(check["check"] == "stance-width");
  CHECK(check["unit"] == "m");
  CHECK_CLOSE(check["differences"]["bias"].get<double>(), inch, 1e-12);
  CHECK(check["stated_uncertainties"] == nlohmann::json{{"stated", 4}, {"within", 3}});
  CHECK(check["verdicts"]["total"] == 3);
  CHECK(check["verdicts"]["same"] == 2);
  CHECK(check["verdicts"]["first_only"] == 1);
  CHECK_CLOSE(check["minimal_detectable_change"].get<double>(), 1.959964 * 0.816497 * inch, 1e-7);
  CHECK(document["checks"][1]["differences"].is_null());
  CHECK(document["grade"]["unit"] == "1");
}

TEST_CASE("agreement: rows of the table of checks are readings") {
  std::vector<std::string> named;
  for (const auto& column : check_columns()) named.push_back(column.name);
  const auto known = history::readings_columns();
  CHECK(named == std::vector<std::string>(known.begin(), known.end()));
}

}  // namespace
}  // namespace rangecheck::report
