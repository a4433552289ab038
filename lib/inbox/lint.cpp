// SPDX-License-Identifier: MIT
#include "inbox/lint.hpp"

#include "inbox/given.hpp"

namespace rangecheck::inbox {

grade::Lint lint(const std::filesystem::path& folder,
                 const std::vector<std::filesystem::path>& files, const std::string& language) {
  const auto words = load_words(folder, language.empty() ? "en" : language);
  grade::Lint out = grade::lint(folder, files, words && !language.empty() ? &*words : nullptr);
  const bool refused = !out.findings.empty() && out.findings.front().refuses;
  if (!files.empty() || refused) return out;
  // Profiles are right, so what a run stumbles over is in the rest.
  if (const auto taught = read_taught(folder, std::nullopt); !taught)
    out.findings.insert(out.findings.begin(), {taught.error(), true});
  return out;
}

}  // namespace rangecheck::inbox
