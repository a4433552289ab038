// SPDX-License-Identifier: MIT
// What grades and pages hang on besides the submission's own files, as hashes: where one of them
// has changed, just the submissions that it touches are worked through again. Inside inbox only.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "grade/profile.hpp"
#include "history/worked.hpp"
#include "inbox/given.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {

/// For all workers at once.
class Basis {
 public:
  /// Both must outlive it.
  Basis(const Job& job, const Taught& taught);

  /// Of what the grade hangs on of a submission that was graded as `worked` says; `golfer` is the
  /// student's id in roster and profiles. Empty when it can no longer be graded so.
  std::string taught(const history::Worked& worked, const std::string& golfer) const;
  /// Of everything: what a submission hangs on that could not be graded.
  const std::string& everything() const { return everything_; }
  /// Of what else its pages show; `earlier` stands for the student's earlier submissions.
  std::string shown(const std::string& golfer, const std::string& earlier) const;
  /// Of what the tables of all submissions look like.
  std::string tables() const;

 private:
  std::string fitted(const history::Worked& worked, const std::string& golfer) const;

  const Job& job_;
  const Taught& taught_;
  std::string reading_;  ///< of what all submissions are read and measured with
  std::string everything_;
  std::map<std::string, std::string> words_;  ///< by language
  mutable std::mutex using_;
  mutable std::map<std::string, std::string> fitted_;  ///< known ones
};

}  // namespace rangecheck::inbox
