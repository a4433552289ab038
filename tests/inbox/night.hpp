// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "inbox/inbox.hpp"
#include "scratch.hpp"

namespace rangecheck::inbox {

/// A scratch folder with an inbox of made-up golfers, gone at the end.
class Fixture {
 public:
  Fixture();

  /// Puts in a submission of two films, in the plain form.
  void add_good(const std::string& id) const;
  /// The same of a student, received at a time (ISO 8601) or, empty, at an unknown one.
  void add_of(const std::string& student, const std::string& id, const std::string& received) const;
  /// Puts in one whose landmark file is cut short.
  void add_broken(const std::string& id) const;
  void write(const std::filesystem::path& relative, const std::string& content) const;
  /// All files below `relative`, by path; links are not followed. The history is left out: it
  /// holds when a grade was recorded.
  std::map<std::string, std::string> files(const std::filesystem::path& relative) const;
  Job job(unsigned workers = 1) const;
  const std::filesystem::path& folder() const { return scratch_.path; }

 private:
  test::Scratch scratch_;
};

/// A run with all of what it graded, films and all.
struct Whole {
  std::vector<report::Graded> graded;       ///< by submission id
  std::vector<report::SetAside> set_aside;  ///< by submission id
};
Result<Whole> run_whole(Job job);

}  // namespace rangecheck::inbox
