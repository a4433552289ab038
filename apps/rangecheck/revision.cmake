# SPDX-License-Identifier: MIT
# Writes HEADER with the revision that is checked out in SOURCE; empty where git can't tell.
set(revision "")
if(EXISTS ${SOURCE}/.git)
  execute_process(
    COMMAND git -C ${SOURCE} describe --always --abbrev=12 --exclude=* "--dirty= with changes"
    OUTPUT_VARIABLE revision ERROR_QUIET OUTPUT_STRIP_TRAILING_WHITESPACE)
endif()
file(CONFIGURE OUTPUT ${HEADER} @ONLY CONTENT [[
// Written by CMake: revision.cmake.
#pragma once

namespace rangecheck::app {

constexpr auto source_revision = "@revision@";

}  // namespace rangecheck::app
]])
