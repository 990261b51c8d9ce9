#!/bin/sh
# Makes Pullback for Windows (64-bit, Intel or AMD) on Debian 12, and looks under wine whether it comes
# to what Linux comes to:
#   build/windows/Pullback-VERSION-setup.exe      installs for one person, without admin rights
#   build/windows/pullback-VERSION-windows.zip    to unpack anywhere: open bin\pullback.exe in it
#
# Installs what is missing from Debian first. Libraries are built from Debian's source packages, once,
# into PB_WINDOWS_CACHE (build/windows-libraries when not set; no space in its path), and again when
# Debian has another version of one. --libraries stops after them; --build makes the programs and
# packages and compares nothing. What was tried and what was not: docs/PORTS.md.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
# shellcheck source=src/packages.sh
. "$root/src/packages.sh"
# shellcheck source=src/package/windows/libraries.sh
. "$root/src/package/windows/libraries.sh"

case "${1:-}" in
'' | --libraries | --build) ;;
*)
    pb_say "unknown option \"$1\"; usage: src/windows.sh [--libraries | --build]"
    exit 2
    ;;
esac
cache=${PB_WINDOWS_CACHE:-$root/build/windows-libraries}
case "$cache" in
*' '*)
    pb_say "configure scripts cannot build in a folder with a space in its name: $cache"
    pb_say "set PB_WINDOWS_CACHE to another folder"
    exit 1
    ;;
/*) ;;
*) cache=$PWD/$cache ;;
esac
prefix=$cache/prefix
work=$cache/work
jobs=$(nproc)

pb_need windows
mkdir -p "$cache"
(pb_windows_libraries)
[ "${1:-}" != --libraries ] || exit 0

cd "$root"
out=build/windows
mkdir -p "$out"
export PB_WINDOWS_PREFIX="$prefix" PKG_CONFIG_LIBDIR="$prefix/lib/pkgconfig" PKG_CONFIG_PATH=
cmake -S . -B "$out/programs" -G Ninja -DCMAKE_TOOLCHAIN_FILE="$root/src/cmake/win64.cmake" \
    -DCMAKE_BUILD_TYPE=RelWithDebInfo -DPB_BUILD_TESTS=OFF -DPB_PACKAGE=ON >"$out/setup.log" 2>&1 || {
    cat "$out/setup.log" >&2
    exit 1
}
cmake --build "$out/programs" -j "$jobs" --target all pullback-lab
unset PB_WINDOWS_PREFIX PKG_CONFIG_LIBDIR PKG_CONFIG_PATH

version=$(sed -n 's/^project(Pullback VERSION \([0-9.]*\).*/\1/p' CMakeLists.txt)
name=pullback-$version-windows
stage=$root/$out/$name
rm -rf "$stage" "$out"/*.zip "$out"/*.exe
PB_WINDOWS_PREFIX=$prefix cmake --install "$out/programs" --prefix "$stage" >"$out/install.log"
"$PB_WINDOWS_HOST-strip" "$stage"/bin/*.exe "$stage"/bin/*.dll
sed -i 's/\r*$/\r/' "$stage/README.txt"
(cd "$out" && find "$name" -type f | LC_ALL=C sort | zip -q -X -9 -@ "$name.zip")

# Every file and folder by name, so that uninstalling removes these and nothing else.
{
    echo '!macro PutFiles'
    (cd "$stage" && find . -type d | LC_ALL=C sort) | while read -r folder; do
        windows=$(printf '%s' "${folder#.}" | tr / '\\')
        printf 'SetOutPath "$INSTDIR%s"\n' "$windows"
        (cd "$stage" && find "$folder" -maxdepth 1 -type f | LC_ALL=C sort) |
            sed "s|^\./\(.*\)|File \"$stage/\1\"|"
    done
    printf '!macroend\n!macro RemoveFiles\n'
    (cd "$stage" && find . -type f | LC_ALL=C sort) | tr / '\\' | sed 's|^\.\(.*\)|Delete "$INSTDIR\1"|'
    (cd "$stage" && find . -mindepth 1 -type d | LC_ALL=C sort -r) | tr / '\\' |
        sed 's|^\.\(.*\)|RMDir "$INSTDIR\1"|'
    echo '!macroend'
} >"$out/files.nsh"
makensis -V2 -INPUTCHARSET UTF8 -DVERSION="$version" -DSTAGE="$stage" -DFILES="$root/$out/files.nsh" \
    -DOUT="$root/$out/Pullback-$version-setup.exe" src/package/windows/setup.nsi
ls -l "$out"/*.zip "$out"/*.exe
[ "${1:-}" != --build ] || exit 0

cmake --preset program >"$out/linux.log" 2>&1 &&
    cmake --build --preset program -j "$jobs" --target pullback pullback-cli pullback-lab >>"$out/linux.log" 2>&1 || {
    cat "$out/linux.log" >&2
    exit 1
}
sh tests/ports/windows.sh "$root/build/program" "$root/$out"
