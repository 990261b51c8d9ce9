# assets/constants.json is the only home of the material, wall and machine constants. At build time
# it becomes an X-macro list, so that the pure core carries the same defaults without reading a file.
set(PB_CONSTANTS_JSON ${CMAKE_SOURCE_DIR}/assets/constants.json)
set(PB_CONSTANTS_DIR ${CMAKE_BINARY_DIR}/generated)
set(PB_CONSTANTS_H ${PB_CONSTANTS_DIR}/core/constants_list.h)
add_custom_command(
  OUTPUT ${PB_CONSTANTS_H}
  COMMAND ${CMAKE_COMMAND} -DIN=${PB_CONSTANTS_JSON} -DOUT=${PB_CONSTANTS_H}
          -P ${CMAKE_SOURCE_DIR}/src/cmake/GenConstants.cmake
  DEPENDS ${PB_CONSTANTS_JSON} ${CMAKE_SOURCE_DIR}/src/cmake/GenConstants.cmake
  COMMENT "Constants from assets/constants.json" VERBATIM)
add_custom_target(pb_constants_gen DEPENDS ${PB_CONSTANTS_H})
