#!/bin/bash
# Proves the packages on a bare Debian 12: makes a root with debootstrap that holds only the
# essential packages, and in it installs the .deb over an older one, runs both programs as an
# ordinary person, checks that the person's runs are kept, removes the package, and runs the
# archive. Make the packages first: src/package.sh.
#   tests/support/package_root.sh [--folder DIR] [--mirror URL]
# Needs root, debootstrap and a Debian mirror; takes about two minutes.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
folder='' mirror=''
while [ $# -gt 0 ]; do
    case $1 in
    --folder) folder=$2 && shift 2 ;;
    --mirror) mirror=$2 && shift 2 ;;
    *) echo "unknown option $1" >&2 && exit 2 ;;
    esac
done
[ "$(id -u)" = 0 ] || { echo "package_root.sh: needs root" >&2 && exit 2; }
deb=$(ls "$here"/build/package/*.deb)
archive=$(ls "$here"/build/package/*.tar.xz)
if [ -z "$mirror" ]; then
    # shellcheck disable=SC2016
    mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Label: Debian' | head -n 1)
fi
folder=${folder:-$(mktemp -d)}
root=$folder/package
# shellcheck disable=SC2317
leave() {
    local code=$?
    set +e
    for at in proc dev; do
        mountpoint -q "$root/$at" && umount "$root/$at"
    done
    grep -q " $root/" /proc/mounts || rm -rf --one-file-system "$root"
    exit "$code"
}
trap leave EXIT

mkdir -p "$root"
debootstrap --variant=minbase bookworm "$root" "$mirror" >"$folder/debootstrap.log"
mount -t proc proc "$root/proc"
mount -t tmpfs tmpfs "$root/dev"
mkdir -p "$root/dev/shm"
for node in null zero full random urandom; do
    # shellcheck disable=SC2046
    mknod -m 666 "$root/dev/$node" c $(stat -c '0x%t 0x%T' "/dev/$node")
done
ln -sf /proc/self/fd "$root/dev/fd"
chmod 1777 "$root/dev/shm"
cp /etc/resolv.conf "$root/etc/resolv.conf"

step() {
    printf '==== %s (%s s)\n' "$*" "$SECONDS"
}
as_root() {
    chroot "$root" env -i HOME=/root PATH=/usr/sbin:/usr/bin:/sbin:/bin DEBIAN_FRONTEND=noninteractive "$@"
}
# An ordinary person, in a folder that has nothing to do with the program.
as_person() {
    chroot "$root" su packer -s /bin/sh -c "cd /var/tmp && env -i HOME=/home/packer PATH=/usr/bin:/bin $*"
}
fail() {
    echo "package_root.sh: $*" >&2
    exit 1
}

# The older package is the new one under an earlier number.
old=$folder/old
rm -rf "$old"
dpkg-deb -R "$deb" "$old"
sed -i 's/^Version: .*/Version: 0.0.9/' "$old/DEBIAN/control"
dpkg-deb --root-owner-group -b "$old" "$root/var/tmp/pullback-old.deb" >/dev/null
cp "$deb" "$root/var/tmp/pullback-new.deb"
cp "$archive" "$root/var/tmp/pullback.tar.xz"

step "install an older package"
as_root apt-get -q update >"$folder/apt.log" 2>&1
find "$root" -xdev -path "$root/var" -prune -o -path "$root/tmp" -prune -o -print | sort >"$folder/before.txt"
as_root apt-get -q -y install --no-install-recommends /var/tmp/pullback-old.deb xvfb xauth libgl1-mesa-dri \
    desktop-file-utils man-db >>"$folder/apt.log" 2>&1
as_root useradd -m packer
as_person "pullback-cli learners add Learner1" >/dev/null
as_person "pullback-cli run /usr/share/pullback/exercises/plain-2x4.json --hands /usr/share/pullback/hands/steady-foot.json --record /var/tmp/a.pbrun" >/dev/null
as_person "pullback-cli runs import /var/tmp/a.pbrun --learner Learner1" >/dev/null

step "the new one over it: the learner store is kept"
as_root apt-get -q -y install /var/tmp/pullback-new.deb >>"$folder/apt.log" 2>&1
as_person "pullback-cli runs list --csv" | grep -q Learner1 || fail "the run of before is gone"
as_person "pullback-cli runs check" || fail "the store does not pass its check"
as_person "pullback-cli grade /var/tmp/a.pbrun --pdf /var/tmp/a.pdf --lang es" >/dev/null ||
    [ $? = 1 ] || fail "no report"
[ -s "$root/var/tmp/a.pdf" ] || fail "the report is empty"
as_root man -w pullback pullback-cli >/dev/null || fail "no manual pages"
as_root desktop-file-validate /usr/share/applications/invalid.pullback.Pullback.desktop
grep -rl "$here" "$root/usr/bin/pullback" "$root/usr/bin/pullback-cli" && fail "a place of the build machine is built in"

# The menu entry's own command line, %f left out as a menu does.
window() {
    opened=0
    as_person "LANG=es_ES.UTF-8 SDL_AUDIODRIVER=dummy timeout 15 xvfb-run -a $1" >"$folder/window.log" 2>&1 || opened=$?
    [ "$opened" = 124 ] || { cat "$folder/window.log" && fail "the window ended with $opened"; }
}
step "the window, by the menu entry's command"
menu=$(sed -n 's/^Exec=\(.*\) %f$/\1/p' "$root/usr/share/applications/invalid.pullback.Pullback.desktop")
window "$menu"
as_person "LIBGL_ALWAYS_SOFTWARE=1 SDL_AUDIODRIVER=dummy xvfb-run -a pullback --bench-frames 60" | tail -n 3

step "remove"
as_root apt-get -q -y purge pullback >>"$folder/apt.log" 2>&1
left=$(find "$root/usr" "$root/etc" -xdev -iname '*pullback*' | head)
[ -z "$left" ] || fail "left behind: $left"
ls "$root/home/packer/.local/share/pullback/" >/dev/null || fail "removing took the person's own runs"

step "the archive, unpacked by the person into a folder with a space"
as_root apt-get -q -y autoremove >>"$folder/apt.log" 2>&1
# what any desktop has and an archive must not bring: X, sound
as_root apt-get -q -y install --no-install-recommends xvfb xauth xz-utils libpulse0 libasound2 libgbm1 libgl1 libegl1 \
    libgl1-mesa-dri libx11-6 libxext6 libxss1 libxcursor1 libxi6 libxrandr2 libxfixes3 libwayland-client0 libwayland-cursor0 \
    libwayland-egl1 libxkbcommon0 libdrm2 >>"$folder/apt.log" 2>&1
if as_root dpkg -s libsdl2-2.0-0 >/dev/null 2>&1; then
    fail "the root still has the library that the archive has to bring"
fi
as_person "mkdir '/home/packer/my programs' && tar -C '/home/packer/my programs' -xf /var/tmp/pullback.tar.xz"
bin=$(cd "$root" && ls -d "home/packer/my programs/"*/bin)
as_person "'/$bin/pullback-cli' runs list" | grep -q Learner1 || fail "the archive does not read the store"
window "'/$bin/pullback'"
step "all of it holds: $(stat -c %s "$deb") bytes of .deb, $(stat -c %s "$archive") of archive, installed $(dpkg-deb -f "$deb" Installed-Size) KiB"
