# pb_keep_libraries(target): for every program that opens a GL context. Does nothing in a plain build.
# Run sanitised GL programs under a time limit and never with fast_unwind_on_malloc=0, with which
# the software driver locks up at start.
function(pb_keep_libraries target)
  if(PB_SANITIZE MATCHES "address")
    target_sources(${target} PRIVATE ${CMAKE_SOURCE_DIR}/src/cmake/keep_libraries.c)
    target_link_options(${target} PRIVATE -Wl,--export-dynamic-symbol=dlclose)
  endif()
endfunction()
