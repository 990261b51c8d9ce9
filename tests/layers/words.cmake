# Gate: nothing unfinished is left in the tree, and no file grows out of hand.
#   cmake -DROOT=<tree> -P words.cmake
cmake_minimum_required(VERSION 3.25)

# Spelt in two halves so that this file passes its own gate.
set(words "to" "do" "fix" "me" "x" "xx" "st" "ub" "place" "holder" "tb" "d" "dum" "my text")
set(pattern "")
while(words)
  list(POP_FRONT words first second)
  string(APPEND pattern "|${first}${second}")
endwhile()
string(SUBSTRING "${pattern}" 1 -1 pattern)
set(max_lines 600)

file(GLOB_RECURSE files
  ${ROOT}/src/*.c ${ROOT}/src/*.h ${ROOT}/src/*.inc ${ROOT}/src/*.cmake ${ROOT}/src/*.sh
  ${ROOT}/src/*CMakeLists.txt ${ROOT}/shaders/* ${ROOT}/assets/*.json
  ${ROOT}/tests/*.c ${ROOT}/tests/*.h ${ROOT}/tests/*.cmake ${ROOT}/tests/*.sh
  ${ROOT}/tests/*CMakeLists.txt ${ROOT}/docs/*.md)
list(APPEND files ${ROOT}/README.md ${ROOT}/DEVELOPERS.md ${ROOT}/CMakeLists.txt)
set(bad "")
foreach(file ${files})
  if(NOT EXISTS ${file})
    continue()
  endif()
  file(RELATIVE_PATH short ${ROOT} ${file})
  file(READ ${file} text)
  # Lists split at semicolons and brackets group; neither may hide a line.
  string(REGEX REPLACE "[][;]" "," text "${text}")
  string(TOLOWER "${text}" text)
  if(text MATCHES "(^|[^a-z])(${pattern})([^a-z]|$)")
    string(REPLACE "\n" ";" lines "${text}")
    set(number 0)
    foreach(line IN LISTS lines)
      math(EXPR number "${number} + 1")
      if(line MATCHES "(^|[^a-z])(${pattern})([^a-z]|$)")
        string(APPEND bad "${short}:${number}: the word \"${CMAKE_MATCH_2}\"\n")
      endif()
    endforeach()
  endif()
  if(short MATCHES "\\.(c|inc)$")
    string(REGEX MATCHALL "\n" ends "${text}")
    list(LENGTH ends count)
    if(count GREATER ${max_lines})
      string(APPEND bad "${short}: ${count} lines, more than ${max_lines}; split it by subject\n")
    endif()
  endif()
endforeach()
if(bad)
  message(FATAL_ERROR "Not fit to keep:\n${bad}")
endif()
