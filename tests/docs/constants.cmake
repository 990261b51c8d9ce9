# docs/CONSTANTS.md is what the program prints.
#   cmake -DLAB=pullback-lab -DPAGE=docs/CONSTANTS.md [-DWRITE=ON] -P constants.cmake
cmake_minimum_required(VERSION 3.25)
execute_process(COMMAND ${LAB} constants --markdown OUTPUT_VARIABLE printed RESULT_VARIABLE code)
if(NOT code EQUAL 0)
  message(FATAL_ERROR "pullback-lab constants --markdown ended with ${code}")
endif()
if(WRITE)
  file(WRITE ${PAGE} "${printed}")
  return()
endif()
file(READ ${PAGE} kept)
if(NOT printed STREQUAL kept)
  message(FATAL_ERROR "docs/CONSTANTS.md is behind assets/constants.json. "
    "Run: cmake --build <build folder> --target constants_doc")
endif()
