# SPDX-License-Identifier: MIT
# What `--version` says of how the program was built: nothing of when, where or by whom, so that the
# same source gives the same bytes.

# The number in a header's `#define NAME number` or `#define NAME "number"`.
function(rangecheck_defined result header name)
  file(STRINGS ${header} line REGEX "^#define +${name} ")
  string(REGEX REPLACE "^#define +${name} +\"?([^\" ]*).*" "\\1" value "${line}")
  set(${result} "${value}" PARENT_SCOPE)
endfunction()

rangecheck_defined(xlsxwriter_version ${XLSXWRITER_INCLUDE_DIR}/xlsxwriter.h LXW_VERSION)
foreach(part IN ITEMS MAJOR MINOR RELEASE)
  rangecheck_defined(number ${XXHASH_INCLUDE_DIR}/xxhash.h XXH_VERSION_${part})
  list(APPEND xxhash_version ${number})
endforeach()
foreach(part IN ITEMS MAJOR MINOR REVISION)
  rangecheck_defined(number ${CERES_INCLUDE_DIR}/ceres/version.h CERES_VERSION_${part})
  list(APPEND ceres_version ${number})
endforeach()
list(JOIN xxhash_version . xxhash_version)
list(JOIN ceres_version . ceres_version)

# minizip has no version of its own: it is zlib's.
set(RANGECHECK_LIBRARIES "Ceres ${ceres_version}, CLI11 ${CLI11_VERSION}, Eigen ${Eigen3_VERSION}, \
fmt ${fmt_VERSION}, libxlsxwriter ${xlsxwriter_version}, nlohmann-json ${nlohmann_json_VERSION}, \
simdjson ${simdjson_VERSION}, SQLite ${SQLite3_VERSION}, xxHash ${xxhash_version}, \
yaml-cpp ${yaml-cpp_VERSION}, zlib ${ZLIB_VERSION_STRING}")

set(RANGECHECK_BUILD "${CMAKE_BUILD_TYPE}")
if(RANGECHECK_TESTS)
  string(APPEND RANGECHECK_BUILD ", checks of the standard library on")
endif()
if(RANGECHECK_SANITIZE)
  string(APPEND RANGECHECK_BUILD ", sanitizers on")
endif()
set(RANGECHECK_COMPILER "${CMAKE_CXX_COMPILER_ID} ${CMAKE_CXX_COMPILER_VERSION}")
set(RANGECHECK_SYSTEM "${CMAKE_SYSTEM_NAME} ${CMAKE_SYSTEM_PROCESSOR}")
set(epoch_of_caller "$ENV{SOURCE_DATE_EPOCH}")
set(ENV{SOURCE_DATE_EPOCH} ${RANGECHECK_TIME})
string(TIMESTAMP RANGECHECK_DATE "%Y-%m-%d" UTC)
set(ENV{SOURCE_DATE_EPOCH} "${epoch_of_caller}")
configure_file(build_facts.hpp.in build_facts.hpp @ONLY)

# The revision is asked for at every build, and only a changed answer compiles anything.
add_custom_target(rangecheck_revision
  COMMAND ${CMAKE_COMMAND} -DSOURCE=${PROJECT_SOURCE_DIR}
          -DHEADER=${CMAKE_CURRENT_BINARY_DIR}/revision.hpp
          -P ${CMAKE_CURRENT_SOURCE_DIR}/revision.cmake
  BYPRODUCTS ${CMAKE_CURRENT_BINARY_DIR}/revision.hpp
  VERBATIM)
