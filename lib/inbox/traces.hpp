// SPDX-License-Identifier: MIT
// Where in an output folder a student is to be found. Looks only; forget.cpp removes.
#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/publish.hpp"
#include "history/store.hpp"

namespace rangecheck::inbox {

/// Paths are those of OUT with what is below it.
struct Traces {
  struct Folder {
    std::filesystem::path path;
    std::vector<std::filesystem::path> files;    ///< of this program, what tells the owner last
    std::vector<std::filesystem::path> foreign;  ///< somebody else's
  };
  struct Table {
    std::filesystem::path file;
    std::string rest;         ///< without the student
    std::size_t removed = 0;  ///< rows
  };

  std::size_t grades = 0;  ///< in the history
  std::vector<Folder> folders;
  std::vector<std::filesystem::path> set_aside;
  std::vector<Table> tables;
  /// Hold everybody in one piece: pages, the workbook, tables that can't be read.
  std::vector<std::filesystem::path> whole;
  /// Left by a killed run; of anybody, and of no use.
  std::vector<std::filesystem::path> leftovers;
  /// Name the student and may be somebody else's, or can't be read.
  std::vector<std::filesystem::path> doubtful;
  std::set<std::string> submissions;  ///< ids of all that are theirs
  std::set<std::string> others;       ///< ids of other students that OUT knows

  bool any() const;
};

/// `store` may be nullptr: there is no history. Fault::io where a link stands in the way or
/// something can't be read.
Result<Traces> traces_of(const std::string& student, const std::filesystem::path& out,
                         const history::Store* store);

}  // namespace rangecheck::inbox
