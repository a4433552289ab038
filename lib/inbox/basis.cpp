// SPDX-License-Identifier: MIT
#include "inbox/basis.hpp"

#include <system_error>

#include "base/digest.hpp"
#include "grade/fitted_hash.hpp"

namespace rangecheck::inbox {
namespace {

void add(Digest& digest, const intake::Golfer& golfer) {
  digest.add(golfer.id).add(golfer.name).add(golfer.handedness).add(golfer.style);
  digest.add(golfer.stature.has_value());
  if (golfer.stature) digest.add(golfer.stature->in_metres());
  digest.add(golfer.foot.has_value());
  if (golfer.foot)
    digest.add(golfer.foot->value.in_metres()).add(golfer.foot->standard_uncertainty.in_metres());
  digest.add(golfer.limits.size());
  for (const auto& limit : golfer.limits) digest.add(limit);
  digest.add(golfer.language);
}

void add(Digest& digest, const intake::Layout& layout) {
  digest.add(layout.name).add(layout.title).add(layout.source).add(layout.origin);
  digest.add(layout.least_score).add(layout.estimator).add(layout.points.size());
  for (const auto& point : layout.points) {
    digest.add(point.has_value());
    if (point) digest.add(point->side).add(point->joint);
  }
}

/// A file of the profiles folder as it is; the program has its own where there is none.
void add_file(Digest& digest, const Job& job, const char* name) {
  std::error_code failed;
  const bool is_there = std::filesystem::exists(job.profiles / name, failed);
  digest.add(is_there);
  if (is_there) static_cast<void>(digest.add_file(job.profiles / name, name));
}

}  // namespace

Basis::Basis(const Job& job, const Taught& taught) : job_(job), taught_(taught) {
  Digest reading;
  reading.add(version());
  for (const auto& layout : taught.layouts.all()) add(reading, layout);
  add_file(reading, job, "layouts/names.yaml");
  add_file(reading, job, "measures.yaml");
  add_file(reading, job, "filming.yaml");
  reading_ = reading.hex();
  Digest all;
  all.add(reading_).add(taught.profiles.hash);
  for (const auto& [id, golfer] : taught.roster) add(all, golfer);
  everything_ = all.hex();
  for (const auto& [language, words] : taught.words) words_[language] = words.hash();
}

std::string Basis::fitted(const history::Worked& worked, const std::string& golfer) const {
  Digest which;
  which.add(worked.club).add(worked.swing).add(worked.style).add(worked.limits.size());
  for (const auto& limit : worked.limits) which.add(limit);
  which.add(taught_.profiles.students.contains(golfer) ? golfer : "");
  const std::scoped_lock one_at_a_time(using_);
  const auto [known, is_new] = fitted_.try_emplace(which.hex());
  if (!is_new) return known->second;
  const auto profile =
      grade::choose_profile(taught_.profiles, worked.club, worked.swing, worked.style);
  if (!profile) return "";
  intake::Golfer student;
  student.id = golfer;
  student.limits = worked.limits;
  const auto fitted = grade::fit_to_student(**profile, taught_.profiles, student);
  if (fitted) known->second = grade::hash_of(*fitted);
  return known->second;
}

std::string Basis::taught(const history::Worked& worked, const std::string& golfer) const {
  const std::string held_against = fitted(worked, golfer);
  if (held_against.empty()) return "";
  Digest digest;
  digest.add(reading_).add(held_against);
  const auto listed = taught_.roster.find(golfer);
  if (listed != taught_.roster.end()) add(digest, listed->second);
  return digest.hex();
}

std::string Basis::shown(const std::string& golfer, const std::string& earlier) const {
  const auto listed = taught_.roster.find(golfer);
  const std::string language = listed == taught_.roster.end() || listed->second.language.empty()
                                   ? job_.language
                                   : listed->second.language;
  Digest digest;
  digest.add(language).add(words_.at(language)).add(job_.length_unit).add(earlier);
  return digest.hex();
}

std::string Basis::tables() const {
  Digest digest;
  digest.add(version()).add(job_.language).add(words_.at(job_.language)).add(job_.length_unit);
  return digest.hex();
}

}  // namespace rangecheck::inbox
