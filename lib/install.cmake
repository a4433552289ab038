# SPDX-License-Identifier: MIT
# How another program finds the installed library: as a CMake package and through pkg-config. Neither
# holds a path of this machine, so that the folder may be moved.
include(CMakePackageConfigHelpers)

set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/rangecheck)
install(TARGETS rangecheck EXPORT rangecheckTargets COMPONENT development)
install(EXPORT rangecheckTargets NAMESPACE rangecheck:: DESTINATION ${package_dir}
        COMPONENT development)
# Before version 1, any minor version may change what it offers.
write_basic_package_version_file(${PROJECT_BINARY_DIR}/rangecheckConfigVersion.cmake
                                 COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_SOURCE_DIR}/lib/rangecheckConfig.cmake
              ${PROJECT_BINARY_DIR}/rangecheckConfigVersion.cmake
        DESTINATION ${package_dir} COMPONENT development)

# A static library stands before those that it needs.
list(REVERSE rangecheck_rooms)
list(TRANSFORM rangecheck_rooms PREPEND "-lrangecheck_" OUTPUT_VARIABLE room_libraries)
list(JOIN room_libraries " " room_libraries)
file(RELATIVE_PATH prefix_from_pc /${CMAKE_INSTALL_LIBDIR}/pkgconfig /)
string(REGEX REPLACE "/$" "" prefix_from_pc ${prefix_from_pc})
configure_file(rangecheck.pc.in ${PROJECT_BINARY_DIR}/rangecheck.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/rangecheck.pc
        DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT development)
