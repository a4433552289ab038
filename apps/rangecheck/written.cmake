# SPDX-License-Identifier: MIT
# Manual and completions, written by the program that they are of.
find_program(RANGECHECK_GZIP gzip REQUIRED)

set(written "")
function(rangecheck_write file)
  set(path ${CMAKE_CURRENT_BINARY_DIR}/${file})
  add_custom_command(OUTPUT ${path} COMMAND rangecheck_app ${ARGN} > ${path} VERBATIM)
  set(written ${written} ${path} PARENT_SCOPE)
endfunction()
rangecheck_write(rangecheck.1 manual)
rangecheck_write(rangecheck.bash completion bash)
rangecheck_write(_rangecheck completion zsh)
rangecheck_write(rangecheck.fish completion fish)

# Without a name and a time in it, so that the same text gives the same bytes.
set(manual_page ${CMAKE_CURRENT_BINARY_DIR}/rangecheck.1)
add_custom_command(OUTPUT ${manual_page}.gz
                   COMMAND ${RANGECHECK_GZIP} -9nc ${manual_page} > ${manual_page}.gz
                   DEPENDS ${manual_page} VERBATIM)
add_custom_target(rangecheck_written ALL DEPENDS ${written} ${manual_page}.gz)
