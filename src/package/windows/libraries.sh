# shellcheck shell=sh
# Read by src/windows.sh: the libraries of the Windows program, from Debian's source packages with
# Debian's patches, into a prefix. Sets nothing but functions and the lists below.
#
# $prefix is where they go, $work where they are made. A library that stands in the prefix is made
# again only when Debian has another version of it; without a network the prefix is used as it is.

# In the order of what needs what. libpng is not among them: its security updates cannot be had as
# sources everywhere, and nothing here needs it.
PB_WINDOWS_LIBRARIES="jansson sqlite3 freetype pixman cairo libepoxy libsdl2 libsdl2-ttf"
PB_WINDOWS_HOST=x86_64-w64-mingw32
PB_WINDOWS_CC=$PB_WINDOWS_HOST-gcc-posix

# apt with lists of its own: the sources of this machine's apt stay as they are, and no root is needed.
pb_source_apt() {
    mkdir -p "$work/apt/lists/partial" "$work/apt/cache/archives/partial"
    key=/usr/share/keyrings/debian-archive-keyring.gpg
    mirror=${PB_DEBIAN_MIRROR:-http://deb.debian.org/debian}
    cat >"$work/apt/sources.list" <<END
deb-src [signed-by=$key] $mirror bookworm main
deb-src [signed-by=$key] $mirror bookworm-updates main
deb-src [signed-by=$key] $mirror-security bookworm-security main
END
    apt-get -q -o Dir::Etc::SourceList="$work/apt/sources.list" -o Dir::Etc::SourceParts=/dev/null \
        -o Dir::State::Lists="$work/apt/lists" -o Dir::Cache="$work/apt/cache" \
        -o APT::Sandbox::User="$(id -un)" "$@"
}

# The source package $1, unpacked and patched, in $work/src/$1; prints its version. A package whose
# Debian part a mirror lacks is taken without it only in its first Debian revision (-1), which no
# security update has touched.
pb_source() {
    mkdir -p "$work/download/$1" "$work/src"
    cd "$work/download/$1" || return 1
    rm -f ./*.dsc
    if pb_source_apt source --download-only "$1" >get.log 2>&1; then
        rm -rf "$work/src/$1"
        dpkg-source --no-check -x ./*.dsc "$work/src/$1" >unpack.log 2>&1 || {
            cat unpack.log >&2
            return 1
        }
    else
        plain=$(find . -name '*-1.dsc') && original=$(find . -name '*.orig.tar.gz')
        if [ -z "$plain" ] || [ -z "$original" ]; then
            cat get.log >&2
            pb_say "the source of $1 cannot be had as Debian has it"
            return 1
        fi
        sum=$(sha256sum "$original")
        grep -q "^ ${sum%% *} " "$plain" || return 1
        pb_say "$1: this mirror lacks Debian's part of $plain; taken as its authors gave it out"
        rm -rf "$work/src/$1"
        mkdir -p "$work/src/$1"
        tar -C "$work/src/$1" --strip-components=1 -xf "$original"
    fi
    # Of one age, so that no makefile thinks that a patched source wants its configure made anew.
    find "$work/src/$1" -type f -exec touch -d "@$(date +%s)" {} +
    for copyright in "$work/src/$1/debian/copyright" "$work/src/$1/COPYING"; do
        if [ -r "$copyright" ]; then
            mkdir -p "$prefix/licenses"
            cp "$copyright" "$prefix/licenses/$1.txt"
            break
        fi
    done
}

# The version that Debian has of source package $1.
pb_source_version() {
    pb_source_apt source --print-uris --download-only "$1" 2>/dev/null |
        sed -n "s/.*_\(.*\)\.dsc' .*/\1/p" | sed 's/%2b/+/g' | head -n 1
}

pb_by_cmake() {
    from=$1
    shift
    cmake -S "$work/src/$from" -B "$work/build/$from" -G Ninja -DCMAKE_BUILD_TYPE=Release \
        -DCMAKE_TOOLCHAIN_FILE="$root/src/cmake/win64.cmake" -DCMAKE_INSTALL_PREFIX="$prefix" "$@" &&
        ninja -j "$jobs" -C "$work/build/$from" install
}

pb_by_meson() {
    from=$1
    shift
    sed "s|@PREFIX@|$prefix|" "$root/src/package/windows/win64.meson.in" >"$work/win64.meson"
    (cd "$work/src/$from" && meson setup "$work/build/$from" --cross-file "$work/win64.meson" \
        --prefix "$prefix" --libdir lib --buildtype release "$@") &&
        ninja -j "$jobs" -C "$work/build/$from" install
}

pb_by_configure() {
    from=$1
    shift
    mkdir -p "$work/build/$from" && cd "$work/build/$from" &&
        "$work/src/$from/configure" --host="$PB_WINDOWS_HOST" CC="$PB_WINDOWS_CC" --prefix="$prefix" "$@"
}

pb_make_jansson() {
    pb_by_cmake jansson -DJANSSON_BUILD_DOCS=OFF -DJANSSON_EXAMPLES=OFF -DJANSSON_WITHOUT_TESTS=ON \
        -DJANSSON_BUILD_SHARED_LIBS=OFF
}

# One file from all of its sources, by this machine's compiler and tclsh; then that file.
pb_make_sqlite3() {
    mkdir -p "$work/build/sqlite3" && cd "$work/build/sqlite3" &&
        CC=gcc "$work/src/sqlite3/configure" --disable-tcl --disable-readline >configure.log &&
        make -s sqlite3.c &&
        "$PB_WINDOWS_CC" -O2 -DSQLITE_THREADSAFE=1 -DSQLITE_ENABLE_COLUMN_METADATA \
            -DSQLITE_OMIT_LOAD_EXTENSION -c sqlite3.c -o sqlite3.o &&
        rm -f "$prefix/lib/libsqlite3.a" &&
        "$PB_WINDOWS_HOST-ar" crs "$prefix/lib/libsqlite3.a" sqlite3.o &&
        cp sqlite3.h "$prefix/include" &&
        pb_module sqlite3 "$(cat "$work/src/sqlite3/VERSION")" "-lsqlite3"
}

# A pkg-config file for what installs none, or one that a static link cannot use.
# $1: module, $2: version, $3: libraries, $4: a folder of headers below include
pb_module() {
    printf '%s\n' "prefix=$prefix" "Name: $1" "Description: $1" "Version: $2" \
        "Libs: -L\${prefix}/lib $3" "Cflags: -I\${prefix}/include${4:+/$4}" \
        >"$prefix/lib/pkgconfig/$1.pc"
}

# By configure: its CMake asks for a C++ compiler. The dynamic library, so that one with a fault can
# be exchanged without a new program.
pb_make_libsdl2() {
    pb_by_configure libsdl2 --enable-shared --disable-static --disable-video-vulkan &&
        make -s -j "$jobs" && make -s install
}

# zlib must be the packaged one: freetype's own copy of it would stand beside that.
pb_make_freetype() {
    pb_by_cmake freetype -DFT_REQUIRE_ZLIB=ON -DFT_DISABLE_PNG=ON -DFT_DISABLE_BZIP2=ON \
        -DFT_DISABLE_HARFBUZZ=ON -DFT_DISABLE_BROTLI=ON -DBUILD_SHARED_LIBS=OFF
}

pb_make_libsdl2_ttf() {
    pb_by_cmake libsdl2-ttf -DBUILD_SHARED_LIBS=OFF -DSDL2TTF_SAMPLES=OFF -DSDL2TTF_VENDORED=OFF \
        -DSDL2TTF_HARFBUZZ=OFF &&
        pb_module SDL2_ttf 2.20.1 "-lSDL2_ttf -lfreetype -lz" SDL2
}

pb_make_libepoxy() {
    pb_by_meson libepoxy -Dtests=false -Dglx=no -Degl=no
}

pb_make_pixman() {
    pb_by_meson pixman -Dgtk=disabled -Dlibpng=disabled -Dtests=disabled -Dopenmp=disabled \
        -Ddefault_library=static
}

# Pages of PDF with FreeType's letters and nothing else.
pb_make_cairo() {
    pb_by_configure cairo --enable-static --disable-shared --enable-pdf --disable-png --enable-ft \
        --disable-fc --disable-xlib --disable-xcb --disable-win32 --disable-win32-font --disable-ps \
        --disable-svg --disable-script --disable-interpreter --disable-trace --disable-gobject \
        --disable-gtk-doc --disable-valgrind CFLAGS="-O2 -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=0" &&
        make -s -j "$jobs" -C src install &&
        for module in cairo cairo-pdf cairo-ft; do
            pb_module $module 1.16.0 "-lcairo -lpixman-1 -lfreetype -lz" cairo
        done && sed -i 's/^Cflags:/& -DCAIRO_WIN32_STATIC_BUILD/' "$prefix"/lib/pkgconfig/cairo*.pc
}

# Makes what the prefix lacks. 1 with a clear line when that cannot be done.
pb_windows_libraries() {
    mkdir -p "$prefix/lib/pkgconfig" "$prefix/include" "$prefix/bin" "$prefix/made" "$prefix/licenses" "$work/build"
    export PKG_CONFIG_LIBDIR="$prefix/lib/pkgconfig" PKG_CONFIG_PATH= PB_WINDOWS_PREFIX="$prefix"
    # of the packaged zlib the static library alone
    cp "/usr/$PB_WINDOWS_HOST/lib/libz.a" "$prefix/lib/" || return 1
    cp "/usr/$PB_WINDOWS_HOST/include/zlib.h" "/usr/$PB_WINDOWS_HOST/include/zconf.h" "$prefix/include/"
    cp /usr/share/doc/libz-mingw-w64-dev/copyright "$prefix/licenses/zlib.txt"
    pb_module zlib "$(sed -n 's/^#define ZLIB_VERSION "\([0-9.]*\).*/\1/p' "$prefix/include/zlib.h")" -lz
    # inside every program: threads and the C library's start, and what the compiler adds
    cp /usr/share/doc/mingw-w64-x86-64-dev/copyright "$prefix/licenses/mingw-w64.txt"
    cp /usr/share/doc/gcc-mingw-w64-base/copyright "$prefix/licenses/gcc.txt"
    # of cglm, which is headers alone, those of this machine
    cp -r /usr/include/cglm "$prefix/include/"
    cp /usr/share/doc/libcglm-dev/copyright "$prefix/licenses/cglm.txt"
    pb_module cglm "$(env -u PKG_CONFIG_LIBDIR pkg-config --modversion cglm)" ""
    : >"$work/apt.log"
    pb_source_apt update >>"$work/apt.log" 2>&1 || :
    for library in $PB_WINDOWS_LIBRARIES; do
        has=$(cat "$prefix/made/$library" 2>/dev/null) || has=
        version=$(pb_source_version "$library")
        if [ -n "$has" ] && { [ -z "$version" ] || [ "$version" = "$has" ]; }; then
            continue
        fi
        if [ -z "$version" ]; then
            pb_say "the source package $library cannot be had here; apt's words are in $work/apt.log"
            return 1
        fi
        began=$(date +%s)
        rm -rf "$work/build/$library"
        (pb_source "$library") || return 1
        (pb_make_"$(printf '%s' "$library" | tr - _)") >"$work/build-$library.log" 2>&1 || {
            tail -n 30 "$work/build-$library.log" >&2
            pb_say "$library could not be built; all of it is in $work/build-$library.log"
            return 1
        }
        printf '%s\n' "$version" >"$prefix/made/$library"
        pb_say "$library $version: $(($(date +%s) - began)) s"
    done
}
