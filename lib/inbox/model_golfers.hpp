// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "grade/model.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {

/// A checked job: what `rangecheck profile fit` asks for.
struct ModelJob {
  std::filesystem::path inbox, profiles;
  std::optional<std::filesystem::path> roster;
  std::string base;      ///< id of a profile; empty: the one that all submissions are held against
  unsigned workers = 0;  ///< 0: one per core
  std::function<void(const Progress&)> on_progress = {};  ///< may be empty
};

/// What the golfers of an inbox show.
struct ModelGolfers {
  grade::Profile base;
  std::vector<grade::ModelValue> values;  ///< by submission id
  std::size_t submissions = 0;            ///< that these are from
  std::size_t others = 0;                 ///< of another club or swing than the base's
  std::size_t set_aside = 0;
};

/// Grades the inbox, writing nothing, and takes every number that was seen. What is switched off or
/// moved for a golfer's body says nothing about how others should swing, and is left out; so is
/// what a person saw. An error for what a run would refuse, for a base that is not there, and
/// without a base where submissions are held against different profiles.
Result<ModelGolfers> model_golfers(const ModelJob& job);

}  // namespace rangecheck::inbox
