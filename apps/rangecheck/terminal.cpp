// SPDX-License-Identifier: MIT
#include "terminal.hpp"

#include <unistd.h>

#include <cstdlib>
#include <string_view>

namespace rangecheck::app {
namespace {

/// A variable of the environment; one that is not set is as good as an empty one.
std::string_view variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

}  // namespace

Terminal stderr_terminal() {
  const std::string_view kind = variable("TERM");
  const bool redraws = ::isatty(STDERR_FILENO) == 1 && !kind.empty() && kind != "dumb";
  return {redraws, redraws && variable("NO_COLOR").empty()};
}

}  // namespace rangecheck::app
