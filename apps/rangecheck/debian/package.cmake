# SPDX-License-Identifier: MIT
# `cpack` in the build folder makes two Debian packages for /usr: the program with all that it
# comes with, and the library for who builds with it. The same build gives the same bytes.
set(from ${CMAKE_CURRENT_LIST_DIR})
set(to ${CMAKE_CURRENT_BINARY_DIR}/debian)

# Times are that of the version.
set(epoch_of_caller "$ENV{SOURCE_DATE_EPOCH}")
set(ENV{SOURCE_DATE_EPOCH} ${RANGECHECK_TIME})
string(TIMESTAMP changelog_time "%a, %d %b %Y %H:%M:%S +0000" UTC)
string(TIMESTAMP copyright_year "%Y" UTC)
set(ENV{SOURCE_DATE_EPOCH} "${epoch_of_caller}")
configure_file(${from}/times.cmake.in ${to}/times.cmake @ONLY)
set(CPACK_PROJECT_CONFIG_FILE ${to}/times.cmake)

set(maintainer "The rangecheck authors <rangecheck@example.org>")
configure_file(${from}/changelog.in ${to}/changelog @ONLY)
execute_process(COMMAND ${RANGECHECK_GZIP} -9nc ${to}/changelog OUTPUT_FILE ${to}/changelog.gz
                COMMAND_ERROR_IS_FATAL ANY)
file(READ ${PROJECT_SOURCE_DIR}/LICENSE licence)
string(REGEX REPLACE "^MIT License\n\n(Copyright[^\n]*)\n\n" "" licence "${licence}")
string(REGEX REPLACE "\n+$" "" licence "${licence}")
string(REPLACE "\n\n" "\n.\n" licence "${licence}")
string(REPLACE "\n" "\n " licence " ${licence}")
configure_file(${from}/copyright.in ${to}/copyright @ONLY)

# What has another place or name in a package than where `cmake --install` puts it.
set(CMAKE_INSTALL_FULL_BINDIR /usr/${CMAKE_INSTALL_BINDIR})
configure_file(${PROJECT_SOURCE_DIR}/apps/rangecheck/systemd/rangecheck.service.in
               ${to}/rangecheck.service @ONLY)
install(FILES ${to}/rangecheck.service DESTINATION lib/systemd/system
        COMPONENT debian EXCLUDE_FROM_ALL)
install(FILES ${PROJECT_BINARY_DIR}/apps/rangecheck/_rangecheck
        DESTINATION share/zsh/vendor-completions COMPONENT debian EXCLUDE_FROM_ALL)
foreach(part_and_package IN ITEMS debian:rangecheck debian_development:rangecheck-dev)
  string(REGEX MATCH "(.*):(.*)" both ${part_and_package})
  install(FILES ${to}/changelog.gz ${to}/copyright DESTINATION share/doc/${CMAKE_MATCH_2}
          COMPONENT ${CMAKE_MATCH_1} EXCLUDE_FROM_ALL)
endforeach()

# Header-only code of others is in the program: their terms go with it.
foreach(library IN ITEMS libceres-dev libcli11-dev libeigen3-dev libxxhash-dev nlohmann-json3-dev)
  if(EXISTS /usr/share/doc/${library}/copyright)
    install(FILES /usr/share/doc/${library}/copyright
            DESTINATION share/doc/rangecheck/libraries RENAME ${library}
            COMPONENT debian EXCLUDE_FROM_ALL)
  endif()
endforeach()

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME ${PROJECT_NAME})
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "")  # each package has its own
set(CPACK_PACKAGE_CONTACT ${maintainer})
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_PRE_BUILD_SCRIPTS ${from}/folders.cmake)
set(CPACK_COMPONENTS_ALL program debian development debian_development)
set(CPACK_COMPONENTS_GROUPING ONE_PER_GROUP)
foreach(part IN ITEMS program debian)
  string(TOUPPER ${part} PART)
  set(CPACK_COMPONENT_${PART}_GROUP rangecheck)
endforeach()
foreach(part IN ITEMS development debian_development)
  string(TOUPPER ${part} PART)
  set(CPACK_COMPONENT_${PART}_GROUP rangecheck_dev)
endforeach()

set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)

set(CPACK_DEBIAN_RANGECHECK_PACKAGE_NAME rangecheck)
set(CPACK_DEBIAN_RANGECHECK_PACKAGE_SECTION science)
set(CPACK_DEBIAN_RANGECHECK_PACKAGE_SHLIBDEPS ON)
# Whichever makes the user of the nightly service.
set(CPACK_DEBIAN_RANGECHECK_PACKAGE_RECOMMENDS "systemd | systemd-standalone-sysusers")
set(CPACK_DEBIAN_RANGECHECK_PACKAGE_CONTROL_EXTRA ${from}/postinst ${from}/prerm)
set(CPACK_DEBIAN_RANGECHECK_DESCRIPTION "grades golf swings from landmark files, overnight
rangecheck takes a golf coach's inbox of landmark files, which any pose
estimator found in the films of remote students, measures each swing from
address to finish with its uncertainty, and holds it against what the coach
teaches.

It writes a page for every student that says what to work on first, and
tables for the coach. What a film can't show is called not seen, and is
never guessed.")

# What the headers include and the static libraries link.
set(CPACK_DEBIAN_RANGECHECK_DEV_PACKAGE_NAME rangecheck-dev)
set(CPACK_DEBIAN_RANGECHECK_DEV_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_RANGECHECK_DEV_PACKAGE_SHLIBDEPS OFF)
set(CPACK_DEBIAN_RANGECHECK_DEV_PACKAGE_DEPENDS "libceres-dev, libeigen3-dev, libfmt-dev, \
libminizip-dev, libsimdjson-dev, libsqlite3-dev, libxlsxwriter-dev, libyaml-cpp-dev, \
nlohmann-json3-dev, zlib1g-dev")
set(CPACK_DEBIAN_RANGECHECK_DEV_PACKAGE_RECOMMENDS "rangecheck (= ${PROJECT_VERSION})")
set(CPACK_DEBIAN_RANGECHECK_DEV_DESCRIPTION "grades golf swings from landmark files (library)
The library behind the program rangecheck: it reads landmark files of any pose
estimator, measures golf swings with their uncertainty, and grades them.

Headers, static libraries, a CMake package and a pkg-config file, for programs
that link it.")
include(CPack)
