# Gate: the command-line program runs on a machine without a display or OpenGL; cairo and FreeType draw its PDF pages.
#   cmake -DREADELF=readelf -DPROGRAM=pullback-cli -P libraries.cmake
cmake_minimum_required(VERSION 3.25)
execute_process(COMMAND ${READELF} -d ${PROGRAM} OUTPUT_VARIABLE text RESULT_VARIABLE code ERROR_QUIET)
if(NOT code EQUAL 0)
  message(FATAL_ERROR "${READELF} cannot read ${PROGRAM}")
endif()
string(REGEX MATCHALL "\\(NEEDED\\)[^\n]*" rows "${text}")
foreach(row ${rows})
  string(REGEX REPLACE "\\(NEEDED\\)|[ \t]" "" row "${row}")
  if(NOT row MATCHES "lib(c|m|pthread|jansson|sqlite3|cairo|freetype|ld-linux-[a-z0-9-]+)\\.so" AND NOT row MATCHES "ld-linux")
    message(FATAL_ERROR "${PROGRAM} loads more than it should: ${row}")
  endif()
endforeach()
