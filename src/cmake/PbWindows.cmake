# pb_windows_program(target says): a program file of Windows carries its manifest (UTF-8, long paths,
# the scale of each screen), its version and its picture. Elsewhere it does nothing.
if(WIN32)
  enable_language(RC)
endif()
function(pb_windows_program target says)
  if(NOT WIN32)
    return()
  endif()
  set(PB_PROGRAM ${target})
  set(PB_PROGRAM_SAYS ${says})
  set(PB_MANIFEST ${CMAKE_SOURCE_DIR}/src/package/windows/program.manifest)
  string(REPLACE "." "," PB_VERSION_NUMBERS "${PROJECT_VERSION},0")
  set(PB_ICON_LINE "")
  find_program(PB_RSVG rsvg-convert)
  find_program(PB_CONVERT convert) # ImageMagick
  if(PB_RSVG AND PB_CONVERT)
    set(icon ${CMAKE_BINARY_DIR}/pullback.ico)
    execute_process(COMMAND ${PB_RSVG} -w 256 -h 256 -o ${icon}.png
      ${CMAKE_SOURCE_DIR}/src/package/invalid.pullback.Pullback.svg COMMAND_ERROR_IS_FATAL ANY)
    execute_process(COMMAND ${PB_CONVERT} ${icon}.png -define icon:auto-resize=256,64,48,32,16 ${icon}
      COMMAND_ERROR_IS_FATAL ANY)
    set(PB_ICON_LINE "1 ICON \"${icon}\"")
  endif()
  configure_file(${CMAKE_SOURCE_DIR}/src/package/windows/program.rc.in ${CMAKE_BINARY_DIR}/${target}.rc @ONLY)
  target_sources(${target} PRIVATE ${CMAKE_BINARY_DIR}/${target}.rc)
  set_source_files_properties(${CMAKE_BINARY_DIR}/${target}.rc PROPERTIES OBJECT_DEPENDS "${PB_MANIFEST}")
endfunction()
