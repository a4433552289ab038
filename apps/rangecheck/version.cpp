// SPDX-License-Identifier: MIT
#include "version.hpp"

#include <fmt/format.h>

#include <string_view>

#include "build_facts.hpp"
#include "inbox/inbox.hpp"
#include "revision.hpp"

namespace rangecheck::app {
namespace {

std::string standard_library() {
#ifdef _LIBCPP_VERSION
  return fmt::format("libc++ {}", _LIBCPP_VERSION);
#else
  return fmt::format("libstdc++ {} ({})", _GLIBCXX_RELEASE, __GLIBCXX__);
#endif
}

}  // namespace

std::string version_text() {
  const std::string_view revision = source_revision;
  return fmt::format(
      "rangecheck {}\n"
      "revision  {}\n"
      "build     {}\n"
      "compiler  {}, {}, for {}\n"
      "libraries {}",
      inbox::version(), revision.empty() ? "not known" : revision, built_as, built_by,
      standard_library(), built_for, built_with);
}

}  // namespace rangecheck::app
