# shellcheck shell=sh
# Read by src/run.sh and tests/run.sh: which Debian packages a stage needs, and how they are added.
# Not a program of its own. Sets nothing but functions and the lists below.

# What each one is for stands in docs/decisions/0005-libraries-from-debian.md.
PB_BUILD_PACKAGES="build-essential cmake ninja-build pkg-config libjansson-dev libsdl2-dev
libsdl2-ttf-dev libepoxy-dev libcglm-dev zlib1g-dev libcairo2-dev libfreetype-dev libsqlite3-dev
gettext fonts-dejavu-core libgl1 libegl1 libgl1-mesa-dri"
PB_TEST_PACKAGES="check xvfb xauth xdotool imagemagick clang clang-format clang-tidy cppcheck
libclang-rt-dev poppler-utils sqlite3 parallel"
PB_CI_PACKAGES="llvm lintian desktop-file-utils appstream file dpkg-dev xz-utils
gcc-aarch64-linux-gnu libc6-dev-arm64-cross qemu-user"
# For src/windows.sh alone.
PB_WINDOWS_PROBES="x86_64-w64-mingw32-gcc-posix:gcc-mingw-w64-x86-64-posix meson:meson tclsh:tcl makensis:nsis wine:wine"
PB_WINDOWS_PACKAGES="gcc-mingw-w64-x86-64-posix mingw-w64-tools libz-mingw-w64-dev nsis meson tcl
dpkg-dev debian-archive-keyring zip imagemagick librsvg2-bin wine wine64 xvfb xauth poppler-utils"

# Programs and pkg-config modules to look for where there is no Debian package list to ask.
# Form: what to look for, a colon, the Debian package that has it.
PB_BUILD_PROBES="cc:build-essential cmake:cmake ninja:ninja-build pkg-config:pkg-config
msgfmt:gettext"
PB_BUILD_MODULES="jansson:libjansson-dev sdl2:libsdl2-dev SDL2_ttf:libsdl2-ttf-dev
epoxy:libepoxy-dev cglm:libcglm-dev zlib:zlib1g-dev cairo:libcairo2-dev freetype2:libfreetype-dev
sqlite3:libsqlite3-dev"
PB_TEST_PROBES="xvfb-run:xvfb xauth:xauth xdotool:xdotool compare:imagemagick clang:clang
clang-format:clang-format clang-tidy:clang-tidy cppcheck:cppcheck pdftotext:poppler-utils sqlite3:sqlite3
parallel:parallel"
PB_TEST_MODULES="check:check"

pb_say() {
    printf 'pullback: %s\n' "$*" >&2
}

# True on the Debian releases whose packages are known to fit.
pb_on_debian() {
    [ -r /etc/os-release ] && command -v dpkg-query >/dev/null && command -v apt-get >/dev/null ||
        return 1
    (
        # shellcheck disable=SC1091
        . /etc/os-release
        [ "${ID:-}" = debian ] && [ "${VERSION_ID:-13}" -ge 12 ] 2>/dev/null
    )
}

# Prints those of its arguments that are not installed.
pb_missing_packages() {
    for package in "$@"; do
        state=$(dpkg-query -W -f='${db:Status-Status} ' "$package" 2>/dev/null) || state=
        case " $state" in
        *" installed "*) ;;
        *) printf '%s ' "$package" ;;
        esac
    done
}

# Prints the Debian names of what cannot be found by looking for it. $1: probes, $2: modules.
pb_missing_tools() {
    for pair in $1; do
        command -v "${pair%%:*}" >/dev/null || printf '%s ' "${pair##*:}"
    done
    for pair in $2; do
        pkg-config --exists "${pair%%:*}" 2>/dev/null || printf '%s ' "${pair##*:}"
    done
}

# Runs a command as root: directly, or through sudo.
pb_as_root() {
    if [ "$(id -u)" = 0 ]; then
        "$@"
    else
        sudo "$@"
    fi
}

# Installs what is missing of its arguments; 1 with a clear line when that cannot be done.
pb_apt_install() {
    missing=$(pb_missing_packages "$@")
    [ -n "$missing" ] || return 0
    if [ "$(id -u)" != 0 ] && ! command -v sudo >/dev/null; then
        pb_say "these Debian packages are missing: $missing"
        pb_say "you are not root and there is no sudo; as root, run: apt-get install $missing"
        return 1
    fi
    pb_say "installing from Debian: $missing"
    # One broken source of several is no reason to stop: what is missing may be in another.
    pb_as_root apt-get -q -o DPkg::Lock::Timeout=300 update ||
        pb_say "apt-get update failed; going on with the package lists there are"
    unknown=
    for package in $missing; do
        apt-cache show "$package" >/dev/null 2>&1 || unknown="$unknown $package"
    done
    if [ -n "$unknown" ]; then
        pb_say "not in the package lists of this machine:$unknown"
        return 1
    fi
    # shellcheck disable=SC2086
    pb_as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300 \
        install --no-install-recommends $missing || {
        pb_say "apt-get could not install all of: $missing"
        return 1
    }
}

# Makes sure that a stage has what it needs. $1: build, or test (which includes build), or ci (which
# includes test), or windows (which includes build and is for Debian alone).
pb_need() {
    packages=$PB_BUILD_PACKAGES probes=$PB_BUILD_PROBES modules=$PB_BUILD_MODULES
    if [ "$1" = windows ]; then
        packages="$packages $PB_WINDOWS_PACKAGES"
        probes="$probes apt-get:apt $PB_WINDOWS_PROBES"
    elif [ "$1" != build ]; then
        packages="$packages $PB_TEST_PACKAGES" probes="$probes $PB_TEST_PROBES"
        modules="$modules $PB_TEST_MODULES"
    fi
    if [ "$1" = ci ]; then
        packages="$packages $PB_CI_PACKAGES"
    fi
    if pb_on_debian; then
        # shellcheck disable=SC2086
        pb_apt_install $packages
        return
    fi
    missing=$(pb_missing_tools "$probes" "$modules")
    if [ -n "$missing" ]; then
        pb_say "this is not Debian 12 or later, so nothing was installed."
        pb_say "not found here, by the names of their Debian packages: $missing"
        pb_say "install their counterparts and run this again."
        return 1
    fi
}
