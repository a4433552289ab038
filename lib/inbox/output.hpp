// SPDX-License-Identifier: MIT
// The output folder: which file is where, and that nothing is ever written outside it.
#pragma once

#include <filesystem>
#include <string>

#include "base/publish.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {

class Output {
 public:
  /// Makes the folder where it is missing. Fault::bad_value when it lies in the inbox, where the
  /// next run would take it for a submission; Fault::io when it can't be written.
  static Result<Output> open(const Job& job);

  Result<Nothing> write(const report::Graded& graded) const;
  Result<Nothing> write(const report::SetAside& set_aside) const;
  Result<Nothing> write_tables(const Night& night) const;

 private:
  Output(std::filesystem::path folder, std::string length_unit)
      : folder_(std::move(folder)), length_unit_(std::move(length_unit)) {}
  std::filesystem::path report_folder(const std::string& submission) const;
  std::filesystem::path set_aside_file(const std::string& submission) const;

  std::filesystem::path folder_;
  std::string length_unit_;
};

}  // namespace rangecheck::inbox
