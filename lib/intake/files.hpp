// SPDX-License-Identifier: MIT
// The files of a submission, wherever they are: what is asked of them is one code for a folder of
// the inbox and for a record that carries them. Inside intake only.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "intake/record.hpp"

namespace rangecheck::intake {

inline constexpr const char* manifest_name = "submission.yaml";

/// Paths are relative to where the submission is, as the manifest writes them. `name` is what
/// errors call the file.
class Files {
 public:
  virtual ~Files() = default;

  /// A link that leads nowhere is there too: reading says what is wrong with it.
  virtual bool has(const std::string& path) const = 0;
  virtual bool is_folder(const std::string& path) const = 0;
  /// Why nothing may be read there, if so: a link that leads out of the submission or
  /// nowhere, or a manifest that is any link.
  virtual std::optional<Error> refused(const std::string& path, const std::string& name) const = 0;
  /// Names of what is in a folder, sorted.
  virtual Result<std::vector<std::string>> names_in(const std::string& folder,
                                                    const std::string& name) const = 0;
  /// The whole of a file, gunzipped; at most `limit` bytes.
  virtual Result<std::string> read(const std::string& path, const std::string& name,
                                   std::size_t limit) const = 0;
};

/// Those of a folder.
class FolderFiles final : public Files {
 public:
  enum class Links { stay_inside, lead_anywhere };
  FolderFiles(std::filesystem::path folder, Links links)
      : folder_(std::move(folder)), links_(links) {}

  bool has(const std::string& path) const override;
  bool is_folder(const std::string& path) const override;
  std::optional<Error> refused(const std::string& path, const std::string& name) const override;
  Result<std::vector<std::string>> names_in(const std::string& folder,
                                            const std::string& name) const override;
  Result<std::string> read(const std::string& path, const std::string& name,
                           std::size_t limit) const override;
  /// The same as it is, compressed or not.
  Result<std::string> bytes(const std::string& path, const std::string& name,
                            std::size_t limit) const;

 private:
  std::filesystem::path folder_;
  Links links_;
};

/// Those that a record carries, which has to outlive it.
class CarriedFiles final : public Files {
 public:
  explicit CarriedFiles(const Contents& contents) : contents_(contents) {}

  bool has(const std::string& path) const override;
  bool is_folder(const std::string& path) const override;
  std::optional<Error> refused(const std::string& path, const std::string& name) const override;
  Result<std::vector<std::string>> names_in(const std::string& folder,
                                            const std::string& name) const override;
  Result<std::string> read(const std::string& path, const std::string& name,
                           std::size_t limit) const override;

 private:
  const Contents& contents_;
};

/// One spelling of a path: "./frames/" is "frames", "." is "".
std::string plain_path(const std::string& path);

}  // namespace rangecheck::intake
