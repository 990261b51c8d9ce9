# Gate: who may include whom (docs/ARCHITECTURE.md, table of layers).
#   cmake -DROOT=<tree with src/> -P includes.cmake
# What the compiler cannot see: a header found on the system path although the layer may not use it,
# and a relative include that happens to stand alone. Both are caught here, by reading.
cmake_minimum_required(VERSION 3.25)

# C headers without a clock, streams opened, locale or process behind them. stdio.h is there for
# vsnprintf: the symbol gate sees to it that nothing else of it is used.
set(c_pure "assert.h|float.h|inttypes.h|limits.h|math.h|stdalign.h|stdarg.h|stdbool.h|stddef.h|stdint.h|stdio.h|stdlib.h|string.h")
set(c_any "${c_pure}|ctype.h|errno.h|getopt.h|pthread.h|stdatomic.h|strings.h|time.h")
# Headers of the system itself: src/os alone, so that another system is another folder there.
set(c_system "${c_any}|dirent.h|fcntl.h|io.h|psapi.h|signal.h|unistd.h|wchar.h|windows.h|sys/[a-z]+.h")

set(layers os core words io gfxtypes picture store report render ui audio app cli lab)
# own: quoted headers of other layers. third: system headers beyond C.
set(own_os "")
set(third_os "(${c_system})")
set(own_core "")
# malloc.h is where the C library of Windows keeps aligned memory.
set(third_core "(${c_pure}|immintrin.h|malloc.h)")
# catalogues.h is made at build time from assets/locale.
set(own_words "catalogues.h")
set(third_words "(${c_pure}|ctype.h)")
set(own_io "(os|core|words)/.*")
set(third_io "(${c_any}|jansson.h)")
set(own_gfxtypes "")
set(third_gfxtypes "(${c_pure})")
set(own_picture "(core|gfxtypes)/.*")
set(third_picture "(${c_pure})")
set(own_store "(os|core)/.*")
set(third_store "(${c_any}|sqlite3.h)")
set(own_report "(core|io|words|gfxtypes|picture)/.*")
set(third_report "(${c_any}|cairo[a-z-]*.h|freetype/f[a-z]+.h)")
# shaders.h is made at build time from the files in shaders/.
set(own_render "(core/view.h|gfxtypes/.*|shaders.h)")
set(third_render "(${c_pure}|epoxy/gl.h|cglm/.*)")
set(own_ui "gfxtypes/.*")
set(third_ui "(${c_pure}|ctype.h|SDL.h|SDL_ttf.h)")
set(own_audio "")
set(third_audio "(${c_pure}|stdatomic.h|SDL.h)")
set(own_app "(os|core|words|io|gfxtypes|picture|store|report|render|ui|audio)/.*")
set(third_app "(${c_any}|malloc.h|SDL[A-Za-z_]*.h|cairo[a-z-]*.h|zlib.h)")
set(own_cli "(os|core|words|io|store|report)/.*")
set(third_cli "(${c_any}|jansson.h)")
# Checks set up states of the packing that no command can.
set(own_lab "((os|core|io|store|cli)/.*|pack/sim.h|session/session_private.h)")
set(third_lab "(${c_any})")

set(bad "")
macro(complain what)
  string(APPEND bad "${where}: ${what}\n")
endmacro()

foreach(layer ${layers})
  set(folder ${ROOT}/src/${layer})
  file(GLOB_RECURSE files ${folder}/*.c ${folder}/*.h ${folder}/*.inc)
  foreach(file ${files})
    get_filename_component(beside ${file} DIRECTORY)
    file(RELATIVE_PATH short ${ROOT} ${file})
    file(STRINGS ${file} lines REGEX "^[ \t]*#[ \t]*include")
    foreach(line ${lines})
      set(where "${short}: ${line}")
      if(line MATCHES "include[ \t]*\"([^\"]+)\"")
        set(header ${CMAKE_MATCH_1})
        if(header MATCHES "\\.\\./" OR header MATCHES "^/")
          complain("relative and absolute paths leave the layer unseen; include \"layer/name.h\"")
        elseif(header MATCHES "^${layer}/" OR EXISTS ${beside}/${header} OR EXISTS ${folder}/${header})
          # its own
        elseif("${own_${layer}}" STREQUAL "" OR NOT header MATCHES "^${own_${layer}}$")
          complain("${layer} may not include this")
        endif()
        # The window from inside: base knows no room, a room knows base and itself, shell knows all.
        if(short MATCHES "^src/app/([a-z]+)/" AND NOT CMAKE_MATCH_1 STREQUAL "shell")
          set(room ${CMAKE_MATCH_1})
          if(header MATCHES "^(base|bay|debrief|door|result|shell|side|years)/" AND NOT CMAKE_MATCH_1 STREQUAL "base"
             AND NOT CMAKE_MATCH_1 STREQUAL "${room}")
            complain("src/app/${room} may not know src/app/${CMAKE_MATCH_1}")
          endif()
        endif()
      elseif(line MATCHES "include[ \t]*<([^>]+)>")
        if(NOT CMAKE_MATCH_1 MATCHES "^${third_${layer}}$")
          complain("${layer} may not use this header")
        endif()
      else()
        complain("an include must name its header plainly")
      endif()
    endforeach()
  endforeach()
endforeach()

# A folder that the table does not know would escape the gate.
file(GLOB folders LIST_DIRECTORIES true RELATIVE ${ROOT}/src ${ROOT}/src/*)
foreach(folder ${folders})
  if(IS_DIRECTORY ${ROOT}/src/${folder} AND NOT folder IN_LIST layers
     AND NOT folder MATCHES "^(cmake|package)$")
    set(where "src/${folder}")
    complain("is no known layer; add it to tests/layers/includes.cmake and docs/ARCHITECTURE.md")
  endif()
endforeach()

if(bad)
  message(FATAL_ERROR "Layers broken:\n${bad}")
endif()
