# SPDX-License-Identifier: MIT
# Where the parts of the program go. "program" is everywhere the same; "local" hangs on the prefix.
install(TARGETS rangecheck_app COMPONENT program)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/profiles DESTINATION ${CMAKE_INSTALL_DATADIR}/rangecheck
        COMPONENT program)
install(FILES ${PROJECT_SOURCE_DIR}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT local)

install(FILES ${manual_page}.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
set(completions ${CMAKE_CURRENT_BINARY_DIR})
install(FILES ${completions}/rangecheck.bash RENAME rangecheck
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES ${completions}/rangecheck.fish
        DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d COMPONENT program)
# Debian's zsh looks here under /usr/local only.
install(FILES ${completions}/_rangecheck
        DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/site-functions COMPONENT local)

# The night as a service; README says how it is set up. systemd looks in these places of /usr/local
# too, but never in those of an architecture. The unit names the program by its path, which is not
# known before `cmake --install --prefix`.
set(unit_template ${CMAKE_CURRENT_SOURCE_DIR}/systemd/rangecheck.service.in)
configure_file(${unit_template} rangecheck.service @ONLY)
install(CODE "
  set(CMAKE_INSTALL_FULL_BINDIR \${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_BINDIR})
  set(unit \${CMAKE_INSTALL_PREFIX}/lib/systemd/system/rangecheck.service)
  message(STATUS \"Installing: \$ENV{DESTDIR}\${unit}\")
  configure_file(\"${unit_template}\" \"\$ENV{DESTDIR}\${unit}\" @ONLY)
  list(APPEND CMAKE_INSTALL_MANIFEST_FILES \${unit})" COMPONENT local)
install(FILES systemd/rangecheck.timer DESTINATION lib/systemd/system COMPONENT program)
install(FILES systemd/rangecheck.sysusers DESTINATION lib/sysusers.d RENAME rangecheck.conf
        COMPONENT program)
