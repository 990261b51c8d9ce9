# Gate: what the pure library asks of the outside world.
#   cmake -DNM=nm -DARCHIVE=libpb_core.a -P symbols.cmake
# No files, streams, clock, randomness, locale or threads. Of libm only what IEEE 754 fixes to the
# last bit: exp, log, pow, sin and cos differ between C libraries and come from core/pb_math.h.
# qsort is left out because equal keys come back in an order that differs between C libraries.
cmake_minimum_required(VERSION 3.25)

set(libm "sqrt|fabs|floor|ceil|trunc|round|rint|nearbyint|fmin|fmax|fmod|copysign|ldexp|frexp|scalbn|modf|nextafter|lround|llround|lrint")
set(memory "memcpy|memmove|memset|memcmp|memchr|bcmp|malloc|calloc|realloc|free|aligned_alloc|posix_memalign")
set(text "strlen|strnlen|strcmp|strncmp|strcpy|strncpy|strcat|strncat|strchr|strrchr|strstr|strspn|strcspn|vsnprintf|snprintf")
# What compilers add by themselves: hardening, tables, and the check for vector instructions.
set(compiler "_GLOBAL_OFFSET_TABLE_|__stack_chk_fail|__cpu_model|__cpu_indicator_init|__cpu_features2|__(memcpy|memmove|memset|strcpy|strncpy|strcat|strncat|vsnprintf|snprintf)_chk|__assert_fail|abort")

execute_process(COMMAND ${NM} -u ${ARCHIVE} OUTPUT_VARIABLE listing RESULT_VARIABLE code ERROR_QUIET)
if(NOT code EQUAL 0)
  message(FATAL_ERROR "${NM} cannot read ${ARCHIVE}")
endif()
execute_process(COMMAND ${NM} --defined-only ${ARCHIVE} OUTPUT_VARIABLE defined ERROR_QUIET)
set(ours "")
string(REGEX MATCHALL "[0-9a-f]+ [A-Za-z] [A-Za-z0-9_.]+" rows "${defined}")
foreach(row ${rows})
  string(REGEX REPLACE ".* " "" name ${row})
  list(APPEND ours ${name})
endforeach()

set(bad "")
set(member "")
string(REPLACE "\n" ";" lines "${listing}")
foreach(line ${lines})
  if(line MATCHES "^(.*\\.o):$")
    set(member ${CMAKE_MATCH_1})
  elseif(line MATCHES " [Uwv] ([A-Za-z0-9_.]+)")
    set(name ${CMAKE_MATCH_1})
    if(NOT name MATCHES "^(${libm}|${memory}|${text}|${compiler})$" AND NOT name IN_LIST ours)
      string(APPEND bad "  ${member} uses ${name}\n")
    endif()
  endif()
endforeach()
if(bad)
  message(FATAL_ERROR "The core may not use:\n${bad}")
endif()
