# SPDX-License-Identifier: MIT
# find_package(rangecheck): the whole library as rangecheck::rangecheck, a room as rangecheck::ROOM.
include(CMakeFindDependencyMacro)
find_dependency(nlohmann_json)
find_dependency(simdjson)
find_dependency(fmt)
find_dependency(yaml-cpp)
find_dependency(Eigen3)
find_dependency(SQLite3)
find_dependency(ZLIB)
find_dependency(Threads)

# These have no package of CMake's.
find_path(rangecheck_CERES_INCLUDE_DIR ceres/jet.h)
find_path(rangecheck_XLSXWRITER_INCLUDE_DIR xlsxwriter.h)
mark_as_advanced(rangecheck_CERES_INCLUDE_DIR rangecheck_XLSXWRITER_INCLUDE_DIR)
foreach(header IN ITEMS CERES XLSXWRITER)
  if(NOT rangecheck_${header}_INCLUDE_DIR)
    set(rangecheck_FOUND FALSE)
    set(rangecheck_NOT_FOUND_MESSAGE
        "the headers of ${header} are missing: set rangecheck_${header}_INCLUDE_DIR")
    return()
  endif()
endforeach()

include("${CMAKE_CURRENT_LIST_DIR}/rangecheckTargets.cmake")
target_include_directories(rangecheck::posture SYSTEM INTERFACE ${rangecheck_CERES_INCLUDE_DIR})
target_include_directories(rangecheck::report SYSTEM INTERFACE ${rangecheck_XLSXWRITER_INCLUDE_DIR})
