# cppcheck 2.10 over src; other versions have other complaints, so with them it is passed over.
# A warning is silenced at its line with "// cppcheck-suppress id" and a reason.
cmake_minimum_required(VERSION 3.25)
find_program(CPPCHECK cppcheck)
set(version "")
if(CPPCHECK)
  execute_process(COMMAND ${CPPCHECK} --version OUTPUT_VARIABLE version)
endif()
if(NOT version MATCHES " 2\\.10")
  message(STATUS "passed over: cppcheck 2.10 is not here")
  return()
endif()
cmake_host_system_information(RESULT cores QUERY NUMBER_OF_LOGICAL_CORES)
file(GLOB includes LIST_DIRECTORIES true ${ROOT}/src/*/include)
list(TRANSFORM includes PREPEND -I)
# One configuration, with everything that is compiled here: each more costs as much again.
execute_process(COMMAND ${CPPCHECK} --quiet -DPB_HAS_REPORT -D__GNUC__=12 -D__GLIBC__=2
  -D__x86_64__ -D__AVX2__ -D__AVX512F__ -j ${cores}
  --enable=warning,portability,performance --std=c11 --inline-suppr --error-exitcode=1
  ${includes} -I${ROOT}/src/core -I${ROOT}/src/app -I${GENERATED} ${ROOT}/src
  RESULT_VARIABLE code)
if(NOT code EQUAL 0)
  message(FATAL_ERROR "cppcheck has complaints")
endif()
