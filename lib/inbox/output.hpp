// SPDX-License-Identifier: MIT
// The output folder: which file is where, and that nothing is ever written outside it.
#pragma once

#include <filesystem>
#include <map>
#include <string>

#include "base/publish.hpp"
#include "base/words.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {

/// What pages speak from, by language.
using Catalogues = std::map<std::string, Words>;

class Output {
 public:
  /// Makes the folder where it is missing. Fault::bad_value when it lies in the inbox, where the
  /// next run would take it for a submission; Fault::io when it can't be written.
  /// `words` have every language that a student may have.
  static Result<Output> open(const Job& job, Catalogues words);
  /// The folder as it is, if it is there at all; only for looking.
  static Output as_it_is(const Job& job) { return Output(job, {}); }

  /// Removes what killed runs had not yet put in its place. For who has the folder alone.
  void remove_leftovers() const;

  Result<Nothing> write(const report::Graded& graded) const;
  Result<Nothing> write(const report::SetAside& set_aside) const;
  /// `graded` are the submissions of `night`, in order of id.
  Result<Nothing> write_tables(const report::Entries& graded, const Night& night) const;

  /// Whether everything is there that was written about a submission.
  bool has_report(const std::string& submission) const;
  bool has_set_aside(const std::string& submission) const;
  bool has_tables() const;

 private:
  Output(const Job& job, Catalogues words)
      : folder_(job.out),
        length_unit_(job.length_unit),
        language_(job.language),
        words_(std::move(words)) {}
  const Words& words_for(const report::Graded& graded) const;
  std::filesystem::path set_aside_file(const std::string& submission) const;

  std::filesystem::path folder_;
  std::string length_unit_, language_;
  Catalogues words_;
};

}  // namespace rangecheck::inbox
