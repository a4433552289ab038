// SPDX-License-Identifier: MIT
#include "report/json_parts.hpp"
#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

Json place_entry(Place place) { return place ? Json(id_of(*place)) : Json(); }

Json check_entry(const Graded& graded, const grade::CheckResult& result) {
  const grade::Check& check = result.check;
  const bool was_judged = judged(result);
  constexpr std::string_view subjects[] = {"measured", "reading", "observed"};
  Json entry = {{"id", check.id},
                {"title", check.title},
                {"rule", check.rule},
                {"position", place_entry(check.position)},
                {"region", region_of(graded, check)},
                {"subject", subjects[static_cast<std::size_t>(check.subject)]}};
  if (check.subject == grade::Subject::observed) {
    entry["word"] = result.word;
    entry["accept"] = check.accept;
  } else {
    const Unit unit = document_unit(check.dimension);
    add_value(entry, was_judged ? result.value_si : std::nullopt, result.standard_uncertainty_si,
              check.dimension);
    entry["band"] = {{"lower", number(check.band.lower_si, unit)},
                     {"upper", number(check.band.upper_si, unit)}};
    entry["category"] = result.category;
    entry["probability"] = nullptr;
    if (was_judged) {
      const auto& [below, inside, above] = result.probability;
      entry["probability"] = {
          {"below", number(below)}, {"inside", number(inside)}, {"above", number(above)}};
    }
  }
  entry["note"] = in_english(result.note);
  entry["verdict"] = grade::name_of(result.verdict);
  entry["score"] = nullptr;
  if (was_judged) {
    entry["score"] = {{"expected", number(result.score.expected)},
                      {"standard_deviation", number(result.score.standard_deviation)}};
  }
  entry["weight"] = number(check.weight);
  entry["drives"] = check.drives;
  entry["reason"] = in_english(result.reason);
  entry["remedy"] = in_english(result.remedy);
  return entry;
}

Json measurement_entry(const measure::Measurement& measured) {
  const measure::Rule& rule = *measured.rule;
  Json entry = {{"id", measure::check_id(rule.id, measured.position)},
                {"title", rule.title},
                {"rule", rule.id},
                {"position", place_entry(measured.position)},
                {"region", measure::name_of(rule.region)},
                {"seen", !measured.not_seen}};
  add_value(entry, measured.value, measured.standard_uncertainty, rule.dimension);
  entry["prior_uncertainty"] = number(measured.prior_uncertainty, document_unit(rule.dimension));
  entry["reason"] = measured.not_seen ? in_english(measured.not_seen->reason) : "";
  entry["remedy"] = measured.not_seen ? in_english(measured.not_seen->remedy) : "";
  return entry;
}

Json grade_entry(const grade::Grade& grade) {
  Json entry = {{"percent", number(grade.percent)},
                {"standard_uncertainty", nullptr},
                {"seen_share", number(grade.seen_share)}};
  if (grade.percent) entry["standard_uncertainty"] = number(grade.percent_uncertainty);
  return entry;
}

Json position_grade_entry(const grade::PositionGrade& one) {
  Json entry = {{"position", place_entry(one.position)},
                {"percent", number(one.percent)},
                {"standard_uncertainty", nullptr},
                {"seen_share", number(one.seen_share)}};
  if (one.percent) entry["standard_uncertainty"] = number(one.percent_uncertainty);
  return entry;
}

Json position_entry(const PositionSeen& seen) {
  return {{"position", id_of(seen.position)},
          {"view", intake::name_of(seen.view)},
          {"time_s", number(seen.time_s)},
          {"standard_uncertainty_s", number(seen.standard_uncertainty_s)},
          {"frame", seen.frame},
          {"from", seen.from_club ? "club" : "hands"}};
}

Json not_found_entry(const grade::PositionNotFound& one) {
  return {{"position", id_of(one.position)},
          {"reason", in_english(one.reason)},
          {"remedy", in_english(one.remedy)}};
}

Json space_entry(const posture::SpaceAgreement& space) {
  return {
      {"view", intake::name_of(space.view)},      {"rms_across_m", number(space.rms_across_m)},
      {"rms_depth_m", number(space.rms_depth_m)}, {"rms_in_uncertainties", number(space.rms_in_u)},
      {"mirror_image", space.mirror_image},       {"joints", space.joints}};
}

Json evidence_entry(const Graded& graded) {
  Json agreement = Json::array();
  for (const auto& source : graded.agreement) {
    agreement.push_back({{"source", in_english(source.source)},
                         {"chi_square", number(source.chi_square)},
                         {"freedom", number(source.freedom)},
                         {"surprise", number(source.surprise)}});
  }
  Json findings = Json::array();
  for (const auto& finding : graded.findings) {
    findings.push_back({{"source", in_english(finding.source)},
                        {"text", in_english(finding.text)},
                        {"remedy", in_english(finding.remedy)}});
  }
  return {{"birge_ratio", number(graded.birge_ratio)},
          {"agreement", std::move(agreement)},
          {"space_agreement", list_of(graded.space_agreement, space_entry)},
          {"findings", std::move(findings)},
          {"notes", list_of(graded.notes, in_english)}};
}

}  // namespace

void add_value(Json& entry, std::optional<double> si, double standard_uncertainty_si,
               Dimension dimension) {
  const Unit unit = document_unit(dimension);
  const double half_width_si = coverage_factor_95 * standard_uncertainty_si;
  entry["unit"] = unit.symbol.empty() ? "1" : unit.symbol;
  entry["value"] = number(si, unit);
  entry["standard_uncertainty"] =
      number(si ? std::optional(standard_uncertainty_si) : std::nullopt, unit);
  entry["interval_95"] = nullptr;
  if (si) {
    entry["interval_95"] = {{"low", number(*si - half_width_si, unit)},
                            {"high", number(*si + half_width_si, unit)}};
  }
}

std::string result_json(const Graded& graded, std::optional<int> indent) {
  Json work_on = Json::array();
  for (const std::size_t index : graded.grade.work_on)
    work_on.push_back(graded.grade.results[index].check.id);
  const auto check_of = [&](const auto& result) { return check_entry(graded, result); };
  Json band_notes =
      list_of(graded.grade.changes, [](const grade::Change& change) { return to_string(change); });
  for (const auto& note : graded.grade.notes) band_notes.push_back(in_english(note));

  const Json document = {
      {"format", "rangecheck-result"},
      {"version", format_version},
      {"program", graded.version},
      {"submission", graded.submission},
      {"student", {{"id", graded.student}, {"name", graded.name}}},
      {"received", graded.received},
      {"club", graded.club},
      {"swing", graded.swing},
      {"profile", {{"id", graded.grade.profile_id}, {"title", graded.grade.profile_title.text}}},
      {"grade", grade_entry(graded.grade)},
      {"position_grades", list_of(graded.grade.positions, position_grade_entry)},
      {"work_on", std::move(work_on)},
      {"since_last", since_entry(graded.course)},
      {"positions", list_of(graded.positions, position_entry)},
      {"not_found", list_of(graded.grade.not_found, not_found_entry)},
      {"checks", list_of(graded.grade.results, check_of)},
      {"measurements", list_of(graded.measured, measurement_entry)},
      {"films", list_of(graded.films, film_entry)},
      {"evidence", evidence_entry(graded)},
      {"band_notes", std::move(band_notes)}};
  return written(document, indent);
}

std::optional<std::string> on_one_line(const std::string& document) {
  const auto read = Json::parse(document, nullptr, false);
  if (read.is_discarded()) return std::nullopt;
  return written(read, std::nullopt);
}

}  // namespace rangecheck::report
