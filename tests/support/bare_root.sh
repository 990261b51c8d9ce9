#!/bin/bash
# Proves the two commands of the README on a bare Debian: makes a root with debootstrap that holds
# only the essential packages, copies this tree into it under a path with a space, and runs them.
#   tests/support/bare_root.sh SUITE [--as root|user] [--no-privileges] [--folder DIR] [--mirror URL] [--keep]
# SUITE: bookworm (12) or trixie (13). Needs root, debootstrap and network to a Debian mirror; the
# mirror is the one that apt uses unless told. --as user: an ordinary account with sudo.
# --no-privileges: as in a container that may not mount, unshare or trace (no_privileges.c); root then
# has a container's usual capabilities, and a user, whom sudo cannot help there, finds the packages
# installed.
# Steps: 1 the program's command with no display must build, show the wall as text, and end with 0;
# 2 the tests' command must pass; 3 the program's command must keep a window open under Xvfb.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
suite=${1:?usage: bare_root.sh SUITE [--as root|user] [--no-privileges] [--folder DIR] [--mirror URL] [--keep]}
shift
as=root folder='' mirror='' keep='' bound=''
while [ $# -gt 0 ]; do
    case $1 in
    --as) as=$2 && shift 2 ;;
    --folder) folder=$2 && shift 2 ;;
    --mirror) mirror=$2 && shift 2 ;;
    --keep) keep=1 && shift ;;
    --no-privileges) bound=1 && shift ;;
    *) echo "unknown option $1" >&2 && exit 2 ;;
    esac
done
[ "$(id -u)" = 0 ] || { echo "bare_root.sh: needs root" >&2 && exit 2; }
command -v debootstrap >/dev/null || { echo "bare_root.sh: needs debootstrap" >&2 && exit 2; }
if [ -z "$mirror" ]; then
    # shellcheck disable=SC2016
    mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Label: Debian' | head -n 1)
fi
[ -n "$mirror" ] || { echo "bare_root.sh: apt knows no Debian mirror; give --mirror" >&2 && exit 2; }
folder=${folder:-$(mktemp -d)}
name=$suite-$as${bound:+-no-privileges}
root=$folder/$name

# Nothing is deleted while a mount may still be inside.
# shellcheck disable=SC2317
leave() {
    local code=$?
    set +e
    for at in proc sys dev/shm dev/pts dev; do
        mountpoint -q "$root/$at" && umount "$root/$at"
    done
    if [ -z "$keep" ] && ! grep -q " $root/" /proc/mounts; then
        rm -rf --one-file-system "$root"
    fi
    exit "$code"
}
trap leave EXIT

if [ ! -e "$root/etc/debian_version" ]; then
    mkdir -p "$root"
    debootstrap --variant=minbase "$suite" "$root" "$mirror" >"$folder/debootstrap-$suite.log"
fi
mount -t proc proc "$root/proc"
mount -t tmpfs tmpfs "$root/dev"
mkdir -p "$root/dev/pts" "$root/dev/shm"
for node in null zero full random urandom tty; do
    touch "$root/dev/$node"
    # shellcheck disable=SC2046
    mknod -m 666 "$root/dev/$node.new" c $(stat -c '0x%t 0x%T' "/dev/$node") &&
        mv "$root/dev/$node.new" "$root/dev/$node"
done
ln -sf /proc/self/fd "$root/dev/fd"
mount -t tmpfs tmpfs "$root/dev/shm"
cp /etc/resolv.conf "$root/etc/resolv.conf"

home=/root
if [ "$as" = user ]; then
    home=/home/packer
    if ! [ -d "$root$home" ]; then
        chroot "$root" apt-get -q update
        if [ -n "$bound" ]; then
            # shellcheck source=../../src/packages.sh
            . "$here/src/packages.sh"
            # shellcheck disable=SC2086
            chroot "$root" env DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends \
                $PB_BUILD_PACKAGES $PB_TEST_PACKAGES >"$folder/$name-packages.log"
        fi
        chroot "$root" env DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends sudo
        chroot "$root" useradd -m packer
        echo 'packer ALL=(ALL) NOPASSWD: ALL' >"$root/etc/sudoers.d/packer"
    fi
fi
copy="$home/my copy/Pullback"
rm -rf "${root:?}$copy" # of a root that was kept: nothing built from other sources may stay
mkdir -p "$root$copy"
tar -C "$here" --exclude=./build --exclude='./build-*' --exclude=./.git -cf - . | tar -C "$root$copy" -xf -
[ "$as" = root ] || chroot "$root" chown -R packer: "$home"

# What a container's root may do by default: none of it mounts, makes devices visible, or traces.
capabilities=-all
for one in chown dac_override fowner fsetid kill setgid setuid setpcap net_bind_service sys_chroot audit_write setfcap; do
    capabilities=$capabilities,+$one
done
if [ -n "$bound" ]; then
    cc -static -o "$root/usr/local/bin/no_privileges" "$here/tests/support/no_privileges.c"
    chroot "$root" no_privileges unshare -m true 2>/dev/null && echo "bare_root.sh: it may unshare" >&2 && exit 2
fi

# From another folder, with next to no environment.
inside() {
    local user=root
    [ "$as" = root ] || user=packer
    chroot "$root" ${bound:+setpriv --bounding-set "$capabilities" no_privileges} \
        su "$user" -c "cd / && env -i HOME='$home' PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin $*"
}

step() {
    printf '\n==== %s: %s (%s s)\n' "$name" "$*" "$SECONDS"
}
step "the program's command, no display"
code=0
inside "'$copy/src/run.sh'" 2>&1 | tee "$folder/$name-1.log" | tail -n 12 || code=1
grep -q 'no display to open a window on' "$folder/$name-1.log" || code=1
grep -q ' of 100, passed' "$folder/$name-1.log" && [ -s "$root$copy/build/program/first-run/report.pdf" ] || code=1
step "the tests' command"
inside "'$copy/tests/run.sh'" 2>&1 | tee "$folder/$name-2.log" | tail -n 40 || code=1
step "the program's command under Xvfb: must still be open after 20 seconds"
opened=0
inside "timeout 20 xvfb-run -a '$copy/src/run.sh'" 2>&1 | tee "$folder/$name-3.log" | tail -n 6 ||
    opened=$?
[ "$opened" = 124 ] || code=1
step "result: code $code, window run ended with $opened (124: was open until stopped)"
exit $code
