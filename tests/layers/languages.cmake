# Gate: what people read is translated in assets/locale and nowhere else.
#   cmake -DROOT=<tree> -P languages.cmake
# In src nothing is chosen by the language with ? or ==, no array is indexed by it but the rows of
# words_languages, and no text has letters that English does not have.
cmake_minimum_required(VERSION 3.25)
set(bad "")
file(GLOB_RECURSE files ${ROOT}/src/*.c ${ROOT}/src/*.h)
foreach(file ${files})
  file(RELATIVE_PATH short ${ROOT} ${file})
  file(READ ${file} text)
  string(REPLACE "words_languages[" "row(" text "${text}")
  # Lists split at semicolons and brackets group; neither may hide a line.
  string(REPLACE ";" "," text "${text}")
  string(REPLACE "[" "<" text "${text}")
  string(REPLACE "]" ">" text "${text}")
  string(REGEX REPLACE "/\\*[^*]*\\*+([^/*][^*]*\\*+)*/" "" plain "${text}")
  string(REPLACE "\n" ";" lines "${plain}")
  foreach(line IN LISTS lines)
    if(line MATCHES "(^|[^a-z_])(lang|language|is_spanish|es) *(\\?|==)"
       OR line MATCHES "<[a-z_.>-]*(lang|language)>"
       OR line MATCHES "\"[^\"]*(á|é|í|ó|ú|ñ|Á|É|Í|Ó|Ú|Ñ|¿|¡)")
      string(APPEND bad "${short}: ${line}\n")
    endif()
  endforeach()
endforeach()
if(bad)
  message(FATAL_ERROR "Words or choices of one language outside assets/locale:\n${bad}")
endif()
