#!/bin/sh
# Makes the packages:
#   build/package/pullback_VERSION_ARCH.deb       for Debian
#   build/package/pullback-VERSION-ARCH.tar.xz    to unpack anywhere, for machines without admin
#                                                 rights: run bin/pullback in it
# Installs what is missing from Debian first, as src/run.sh does. The archive carries the libraries
# it needs but those of the C library, the graphics driver and the window system.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
# shellcheck source=src/packages.sh
. "$root/src/packages.sh"

pb_need build
if pb_on_debian; then
    pb_apt_install dpkg-dev file xz-utils
fi
cd "$root"
out=build/package
mkdir -p "$out"
cmake --preset package >"$out.log" 2>&1 || {
    cat "$out.log" >&2
    exit 1
}
cmake --build --preset package -j "$(nproc)"
rm -f "$out"/*.deb "$out"/*.tar.xz
(cd "$out" && cpack -G DEB >cpack.log 2>&1) || {
    cat "$out/cpack.log" >&2
    exit 1
}

# The archive: the same objects, linked so that they look for libraries beside themselves.
version=$(sed -n 's/^project(Pullback VERSION \([0-9.]*\).*/\1/p' CMakeLists.txt)
name=pullback-$version-$(uname -m)
stage=$root/$out/archive/$name
rm -rf "$out/archive"
# shellcheck disable=SC2016
cmake --preset package -DCMAKE_INSTALL_RPATH='$ORIGIN/../lib/pullback' -DPB_SYSTEM_FONTS=OFF \
    -DCMAKE_EXE_LINKER_FLAGS='-pie -Wl,-z,relro,-z,now -Wl,--disable-new-dtags' \
    >>"$out.log" 2>&1
cmake --build --preset package -j "$(nproc)" >>"$out.log"
cmake --install "$out" --strip --prefix "$stage" >>"$out.log"
cmake --preset package -DCMAKE_INSTALL_RPATH= -DPB_SYSTEM_FONTS=ON \
    -DCMAKE_EXE_LINKER_FLAGS='-pie -Wl,-z,relro,-z,now' >>"$out.log" 2>&1
mkdir -p "$stage/lib/pullback"
# Carried: what a desktop may lack. The rest (C library, graphics driver, window system, sound
# server) must come from the machine, because it has to fit what runs there.
carried='^lib(SDL2|SDL2_ttf|jansson|epoxy|cairo|pixman|png16|freetype|harfbuzz|graphite2|glib-2|pcre2-8|fontconfig|expat|sqlite3|z|brotli[a-z]*|samplerate|xcb-render|xcb-shm|Xrender|decor-0|bsd|md)[-.]'
ldd "$stage/bin/pullback" "$stage/bin/pullback-cli" | sed -n 's/.* => \(\/[^ ]*\) .*/\1/p' | sort -u |
    while read -r library; do
        if basename "$library" | grep -Eq "$carried"; then
            cp -L "$library" "$stage/lib/pullback/"
            file=$(basename "$(realpath "$library")")
            package=$(dpkg-query -S "*/$file" 2>/dev/null | head -n 1 | cut -d: -f1) || package=
            if [ -n "$package" ] && [ -r "/usr/share/doc/$package/copyright" ]; then
                cp "/usr/share/doc/$package/copyright" "$stage/lib/pullback/$package.copyright"
            else
                pb_say "no licence text found for $file: it may not be given away in the archive"
                exit 1
            fi
        fi
    done
tar -C "$out/archive" --sort=name --owner=0 --group=0 --numeric-owner -cJf "$out/$name.tar.xz" "$name"
rm -rf "$out/archive"
ls -l "$out"/*.deb "$out"/*.tar.xz
