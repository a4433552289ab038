# SPDX-License-Identifier: MIT
# Writes the YAML files of FOLDER into the C++ file OUT, as texts, so that the program reads every
# layout without its profiles folder. A change of one configures anew.
function(rangecheck_embed_layouts folder out)
  file(GLOB files CONFIGURE_DEPENDS ${folder}/*.yaml)
  list(SORT files)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${files})
  set(table "")
  foreach(file IN LISTS files)
    cmake_path(GET file FILENAME name)
    file(READ ${file} text)
    if(name STREQUAL "names.yaml")
      set(names "${text}")
    else()
      string(APPEND table "    {\"${name}\", R\"yaml(${text})yaml\"},\n")
    endif()
  endforeach()
  file(CONFIGURE OUTPUT ${out} @ONLY CONTENT [[
#include "intake/shipped.hpp"

namespace rangecheck::intake {
namespace {

constexpr ShippedFile files[] = {
@table@};

}  // namespace

std::span<const ShippedFile> shipped_layout_files() { return files; }
std::string_view shipped_names() { return R"yaml(@names@)yaml"; }

}  // namespace rangecheck::intake
]])
endfunction()
