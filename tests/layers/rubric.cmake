# Gate: what a rubric sets is asked of the rubric in use, never typed again where a run is judged,
# shown or summed up. Stops by pb_is_stop, loads of the face by panel_free and panel_zero.
#   cmake -DROOT=<tree with src/> -P rubric.cmake
cmake_minimum_required(VERSION 3.25)
file(GLOB_RECURSE files ${ROOT}/src/*.c)
list(FILTER files EXCLUDE REGEX "/rubric\\.c$|/bay/exercise\\.c$|/bench_|/verify_")
set(bad "")
foreach(file ${files})
  file(STRINGS ${file} lines REGEX "(lifts?(\\[[a-z]+\\])?(->|\\.)|l->)mass_kg *[<>]=? *[0-9A-Z]|[( ](share|over_strength) *[<>]=? *0\\.(7|9)|pass_score *[<>=?:]+ *[1-9]")
  file(RELATIVE_PATH short ${ROOT} ${file})
  foreach(line ${lines})
    string(APPEND bad "${short}: ${line}\n")
  endforeach()
endforeach()
if(NOT bad STREQUAL "")
  message(FATAL_ERROR "A number of the rubric is typed again:\n${bad}")
endif()
