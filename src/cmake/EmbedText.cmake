# Run as a script: turns each text file of FILES into a C string, so that a program carries it along.
# RAMPS: the file whose text takes the place of the line that includes it.
set(text "/* Made by src/cmake/EmbedText.cmake. Do not edit. */\n")
string(REPLACE "|" ";" FILES "${FILES}")
file(READ ${RAMPS} ramps)
foreach(file ${FILES})
  get_filename_component(name ${file} NAME)
  string(REPLACE "." "_" name ${name})
  file(READ ${file} body)
  string(REPLACE "#include \"gfxtypes/ramps.h\"\n" "${ramps}" body "${body}") # GLSL includes nothing
  string(REPLACE "\\" "\\\\" body "${body}")
  string(REPLACE "\"" "\\\"" body "${body}")
  string(REPLACE "\n" "\\n\"\n    \"" body "${body}")
  string(APPEND text "static const char shader_${name}[] =\n    \"${body}\";\n")
endforeach()
file(WRITE ${OUT} "${text}")
