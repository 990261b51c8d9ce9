# Gate: layout of C sources, by clang-format 14 with the settings in the root.
#   cmake -DROOT=<tree> -DCLANG_FORMAT=<program, or empty> -P format.cmake
# Other versions lay out the same settings differently, so with them the gate is passed over.
cmake_minimum_required(VERSION 3.25)
if(NOT CLANG_FORMAT)
  message(STATUS "passed over: clang-format 14 is not here")
  return()
endif()
file(GLOB_RECURSE files ${ROOT}/src/*.c ${ROOT}/src/*.h ${ROOT}/src/*.inc
  ${ROOT}/tests/*.c ${ROOT}/tests/*.h)
if(NOT files)
  message(FATAL_ERROR "no C sources under ${ROOT}")
endif()
execute_process(COMMAND ${CLANG_FORMAT} --dry-run --Werror --style=file ${files}
  WORKING_DIRECTORY ${ROOT} RESULT_VARIABLE code ERROR_VARIABLE text)
if(NOT code EQUAL 0)
  string(REGEX MATCHALL "[^\n]*code should be clang-formatted[^\n]*" rows "${text}")
  list(JOIN rows "\n" rows)
  message(FATAL_ERROR "Run: cmake --build <build folder> --target format\n${rows}")
endif()
