# Gate: what time it is is asked in one place, src/io/clock.c; everybody else calls io_clock_s, io_now
# and io_now_utc, so that a clock that is wrong or stands still is wrong in one place.
#   cmake -DROOT=<tree with src/> -P clock.cmake
# Apart: processor time of the benchmarks and the loop of frames, which goes by the clock of SDL as the
# sound does.
cmake_minimum_required(VERSION 3.25)
file(GLOB_RECURSE files ${ROOT}/src/*.c ${ROOT}/src/*.h)
list(FILTER files EXCLUDE REGEX "/src/(os/(posix|win)/process\\.c|io/clock\\.c|lab/bench_floor\\.c|audio/audio_device\\.c|app/shell/(loop|bench)\\.c)$")
set(bad "")
foreach(file ${files})
  file(STRINGS ${file} lines
    REGEX "(^|[^a-z_])(time|clock|clock_gettime|timespec_get|gettimeofday|gmtime(_r)?|SDL_GetTicks(64)?|SDL_GetPerformanceCounter)\\(")
  file(RELATIVE_PATH short ${ROOT} ${file})
  foreach(line ${lines})
    string(APPEND bad "${short}: ${line}\n")
  endforeach()
endforeach()
if(NOT bad STREQUAL "")
  message(FATAL_ERROR "A second reading of time; call io/clock.h:\n${bad}")
endif()
