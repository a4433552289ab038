// SPDX-License-Identifier: MIT
#include "grade/fitted_hash.hpp"

#include "base/digest.hpp"

namespace rangecheck::grade {
namespace {

void add(Digest& digest, const Written& written) { digest.add(written.text).add(written.language); }

void add(Digest& digest, const Band& band) { digest.add(band.lower_si).add(band.upper_si); }

void add(Digest& digest, const std::vector<std::string>& words) {
  digest.add(words.size());
  for (const auto& word : words) digest.add(word);
}

void add(Digest& digest, const Check& check) {
  digest.add(check.id).add(check.rule).add(check.position).add(check.title);
  digest.add(check.subject).add(check.dimension).add(check.unit);
  add(digest, check.band);
  add(digest, check.accept);
  digest.add(check.fade_si).add(check.weight);
  add(digest, check.drives);
  const Words& words = check.words;
  for (const auto* one : {&words.low, &words.high, &words.inside, &words.drill, &words.caution})
    add(digest, *one);
  digest.add(check.origin);
}

void add(Digest& digest, const Change& change) {
  add(digest, change.check);
  digest.add(change.from.has_value());
  if (change.from) add(digest, *change.from);
  add(digest, change.limit);
  add(digest, change.because);
  digest.add(change.whose);
}

}  // namespace

std::string hash_of(const Fitted& fitted) {
  const Profile& profile = fitted.profile;
  Digest digest;
  digest.add(profile.id).add(profile.club_family).add(profile.swing).add(profile.style);
  add(digest, profile.title);
  digest.add(profile.confidence).add(profile.least_seen_share).add(profile.checks.size());
  for (const auto& check : profile.checks) add(digest, check);
  digest.add(fitted.changes.size());
  for (const auto& change : fitted.changes) add(digest, change);
  for (const auto& [id, because] : fitted.switched_off) digest.add(id).add(because);
  return digest.hex();
}

}  // namespace rangecheck::grade
