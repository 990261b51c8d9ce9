#!/bin/sh
# qaa.po of words.pot in this folder: each text its own translation, in « ».
set -eu
sed -i 's/nplurals=INTEGER; plural=EXPRESSION/nplurals=2; plural=n>1/; s/^"Language: /&qaa/' words.pot
msgen -o english.po words.pot
msgfilter --keep-header --no-wrap -i english.po -o qaa.po sed -e 's/^/«/' -e 's/$/»/' 2>/dev/null
