# Builds pullback-cli and pullback-lab several ways and compares what they print.
#   cmake -DROOT=<tree> -DFOLDER=<for builds> -DLIST=<commands file> -DOWN=<a built pullback-cli>
#     -DOWN_LAB=<a built pullback-lab>
#     -P builds.cmake
#   cmake -DROOT= -DFOLDER= -DPLANT=ON -P builds.cmake
# With PLANT the two builds differ by one bit on purpose (contraction in a small program of this
# script's own), and the comparison must notice: a check of the check.
cmake_minimum_required(VERSION 3.25)
cmake_host_system_information(RESULT cores QUERY NUMBER_OF_LOGICAL_CORES)

# name, compiler, build type, flags. -O3 with the widest vectors of this machine would let a compiler
# change results if anything in the flags allowed it. The third is the program of the build under
# test (OWN): GCC -O3 as people build it.
set(builds "gcc-debug,gcc,Debug,-O0" "clang-native,clang,Release,-O3 -march=native" "own")

function(compare name first_name first text command)
  if(NOT text STREQUAL first)
    file(WRITE ${FOLDER}/differs-${first_name}.txt "${first}")
    file(WRITE ${FOLDER}/differs-${name}.txt "${text}")
    set(line 0)
    string(REGEX REPLACE "[][;]" "," first "${first}")
    string(REGEX REPLACE "[][;]" "," text "${text}")
    string(REPLACE "\n" ";" first "${first}")
    string(REPLACE "\n" ";" text "${text}")
    foreach(a b IN ZIP_LISTS first text)
      math(EXPR line "${line} + 1")
      if(NOT a STREQUAL b)
        set(one "${a}") # the loop's own variables end with it
        set(other "${b}")
        break()
      endif()
    endforeach()
    message(FATAL_ERROR "${name} and ${first_name} differ in \"${command}\", line ${line}:\n"
      "  ${first_name}: ${one}\n  ${name}: ${other}\nBoth are kept in ${FOLDER}")
  endif()
endfunction()

if(PLANT)
  # (1 + 2^-30)^2 - (1 + 2^-29) is 0 when the product is rounded first and 2^-60 when it is not.
  file(WRITE ${FOLDER}/plant.c "#include <math.h>\n#include <stdio.h>\nint main(void)\n{\n"
    "volatile double a = 1 + 0x1p-30, c = -(1 + 0x1p-29);\n#ifdef FUSED\ndouble r = fma(a, a, c);\n"
    "#else\ndouble p = a * a;\ndouble r = p + c;\n#endif\nprintf(\"%a\\n\", r);\n}\n")
  foreach(kind plain fused)
    string(TOUPPER ${kind} macro)
    execute_process(COMMAND gcc -O0 -ffp-contract=off -D${macro} ${FOLDER}/plant.c -o ${FOLDER}/${kind} -lm
      COMMAND_ERROR_IS_FATAL ANY)
    execute_process(COMMAND ${FOLDER}/${kind} OUTPUT_VARIABLE ${kind})
  endforeach()
  execute_process(COMMAND ${CMAKE_COMMAND} -DFOLDER=${FOLDER} -DA=${plain} -DB=${fused} -DCOMPARE=ON
    -P ${CMAKE_CURRENT_LIST_FILE} RESULT_VARIABLE code ERROR_VARIABLE text)
  string(STRIP "${fused}" wanted)
  if(code EQUAL 0 OR NOT text MATCHES "differ in" OR NOT text MATCHES "fused: ${wanted}")
    message(FATAL_ERROR "two programs that print ${plain} and ${fused} were taken for equal")
  endif()
  return()
endif()
if(COMPARE)
  compare(fused plain "${A}" "${B}" "the planted program")
  return()
endif()

file(STRINGS ${LIST} commands REGEX "^[^#]")
list(LENGTH commands count)
if(count EQUAL 0)
  message(FATAL_ERROR "no commands in ${LIST}")
endif()
set(first_name "")
foreach(build ${builds})
  string(REPLACE "," ";" parts "${build}")
  list(GET parts 0 name)
  set(cli ${OWN})
  set(lab ${OWN_LAB})
  if(NOT name STREQUAL "own")
    list(GET parts 1 compiler)
    list(GET parts 2 type)
    list(GET parts 3 flags)
    set(folder ${FOLDER}/${name})
    set(cli ${folder}/src/cli/pullback-cli)
    set(lab ${folder}/src/lab/pullback-lab)
    execute_process(COMMAND ${CMAKE_COMMAND} -S ${ROOT} -B ${folder} -G Ninja -DCMAKE_C_COMPILER=${compiler}
      -DCMAKE_BUILD_TYPE=${type} "-DCMAKE_C_FLAGS=${flags}" -DPB_BUILD_APP=OFF -DPB_BUILD_TESTS=OFF
      OUTPUT_VARIABLE log ERROR_VARIABLE log RESULT_VARIABLE code)
    if(NOT code EQUAL 0)
      message(FATAL_ERROR "${name} cannot be set up:\n${log}")
    endif()
    execute_process(COMMAND ${CMAKE_COMMAND} --build ${folder} -j ${cores} --target pullback-cli pullback-lab
      OUTPUT_VARIABLE log ERROR_VARIABLE log RESULT_VARIABLE code)
    if(NOT code EQUAL 0)
      message(FATAL_ERROR "${name} does not build:\n${log}")
    endif()
  endif()
  set(number 0)
  foreach(command ${commands})
    math(EXPR number "${number} + 1")
    set(expected 0)
    set(words "${command}")
    if(command MATCHES "^([0-9]+): (.*)$")
      set(expected ${CMAKE_MATCH_1})
      set(words "${CMAKE_MATCH_2}")
    endif()
    set(program ${cli})
    if(words MATCHES "^lab (.*)$")
      set(program ${lab})
      set(words "${CMAKE_MATCH_1}")
    endif()
    separate_arguments(words UNIX_COMMAND "${words}")
    string(TIMESTAMP before "%s")
    execute_process(COMMAND ${program} ${words} WORKING_DIRECTORY ${ROOT}
      OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE code)
    string(TIMESTAMP after "%s")
    math(EXPR seconds "${after} - ${before}")
    message(STATUS "${name}: ${command}: exit ${code}, ${seconds} s")
    if(NOT code EQUAL expected)
      message(FATAL_ERROR "${name}: \"${command}\" ended with ${code}, expected ${expected}:\n${out}${err}")
    endif()
    # What a clock measured is no part of the promise.
    string(REGEX REPLACE "\"(realtime_factor|wall_s|time_ms)\": *[^,}\n]*" "" text "${out}${err}")
    if(first_name STREQUAL "")
      set(first_${number} "${text}")
    else()
      compare(${name} ${first_name} "${first_${number}}" "${text}" "${command}")
    endif()
  endforeach()
  if(first_name STREQUAL "")
    set(first_name ${name})
  endif()
endforeach()
message(STATUS "${count} commands print the same from every build")
