# Compiler flags for every target. Results must not differ between builds, so contraction is off
# and nothing here may relax IEEE arithmetic. -fno-math-errno and -fno-trapping-math change no
# value: they only say that nobody reads errno or the exception flags, which lets loops vectorise.
if(NOT CMAKE_BUILD_TYPE AND NOT CMAKE_CONFIGURATION_TYPES)
  set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "Build type" FORCE)
endif()
set(CMAKE_C_STANDARD 17)
set(CMAKE_C_STANDARD_REQUIRED ON)
set(CMAKE_C_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)
set(CMAKE_C_FLAGS_RELWITHDEBINFO "-O3 -g")

add_library(pb_flags INTERFACE)
target_compile_options(pb_flags INTERFACE
  -Wall -Wextra -Wshadow -Wconversion -Wstrict-prototypes
  # Clang also means the NAN and INFINITY macros of the C library by this, which are floats.
  $<$<C_COMPILER_ID:GNU>:-Wdouble-promotion>
  -Wmissing-prototypes -Wvla -Wundef -Wformat=2
  -ffp-contract=off -fno-math-errno -fno-trapping-math)
# GCC 12 turns a neighbouring add and subtract of products into a fused instruction in its straight-
# line vectoriser even with contraction off (seen with -march=native: vfmsubadd in a plane
# rotation). Loops are vectorised by another pass, which keeps the rule.
if(CMAKE_C_COMPILER_ID STREQUAL "GNU")
  target_compile_options(pb_flags INTERFACE -fno-tree-slp-vectorize)
endif()
target_compile_definitions(pb_flags INTERFACE _POSIX_C_SOURCE=200809L)
# Numbers are read and printed by the rules of C, not by those of Windows' own library; the compiler
# knows the latter's, so formats are checked by builds for other systems, as are numbers that lose
# digits: isfinite and its like do so here, on purpose. Threads, and what belongs
# to the compiler, stand inside the programs: nothing of them is to be installed.
if(WIN32)
  target_compile_definitions(pb_flags INTERFACE __USE_MINGW_ANSI_STDIO=1)
  target_compile_options(pb_flags INTERFACE -Wno-format -Wno-float-conversion)
  target_link_options(pb_flags INTERFACE -static)
endif()
# SDL's headers take in the compiler's vector intrinsics, 60 000 lines that no file here gets from
# there: without them a file that uses SDL compiles in a third of the time.
target_compile_definitions(pb_flags INTERFACE
  SDL_DISABLE_IMMINTRIN_H SDL_DISABLE_XMMINTRIN_H SDL_DISABLE_EMMINTRIN_H
  SDL_DISABLE_PMMINTRIN_H SDL_DISABLE_MMINTRIN_H)
if(PB_WERROR)
  target_compile_options(pb_flags INTERFACE -Werror)
endif()
if(PB_SANITIZE)
  target_compile_options(pb_flags INTERFACE -fsanitize=${PB_SANITIZE} -fno-omit-frame-pointer
    -fno-sanitize-recover=all)
  target_link_options(pb_flags INTERFACE -fsanitize=${PB_SANITIZE})
  # Sanitised loops are not vectorised, whatever their pragmas ask for.
  target_compile_options(pb_flags INTERFACE $<$<C_COMPILER_ID:Clang>:-Wno-pass-failed>)
endif()
