#!/bin/sh
# The same bits on another kind of processor: builds the core for 64-bit ARM, runs physics_hashes
# emulated and compares it with the same program of the build under test.
#   aarch64.sh TREE FOLDER PHYSICS_HASHES
# FOLDER is made anew. Only the core is built: the libraries of the other layers are not at hand for
# that processor, and they do no arithmetic of the physics.
set -eu
tree=$1 folder=$2 own=$3
cc=aarch64-linux-gnu-gcc emulator=qemu-aarch64

for program in $cc $emulator; do
    command -v "$program" >/dev/null || {
        echo "passed over: no $program (Debian packages: gcc-aarch64-linux-gnu, libc6-dev-arm64-cross, qemu-user)"
        exit 77
    }
done
rm -rf "$folder"
mkdir -p "$folder"
cmake -S "$tree" -B "$folder/core" -G Ninja -DCMAKE_C_COMPILER=$cc -DCMAKE_SYSTEM_NAME=Linux \
    -DCMAKE_SYSTEM_PROCESSOR=aarch64 -DCMAKE_BUILD_TYPE=Release \
    -DPB_BUILD_APP=OFF -DPB_BUILD_TESTS=OFF >"$folder/setup.log" 2>&1 || {
    cat "$folder/setup.log"
    exit 1
}
cmake --build "$folder/core" --target pb_core -j "$(nproc)" >"$folder/build.log" 2>&1 || {
    tail -40 "$folder/build.log"
    exit 1
}
$cc -std=c17 -O2 -ffp-contract=off -static -I "$tree/src/core/include" -I "$folder/core/generated" \
    "$tree/tests/determinism/physics_hashes.c" "$folder/core/src/core/libpb_core.a" -lm \
    -o "$folder/physics_hashes"
"$own" >"$folder/own.txt"
$emulator "$folder/physics_hashes" >"$folder/aarch64.txt"
lines=$(wc -l <"$folder/own.txt")
[ "$lines" -ge 14 ] || {
    echo "only $lines hashes from the build under test"
    exit 1
}
cmp -s "$folder/own.txt" "$folder/aarch64.txt" || {
    echo "64-bit ARM differs from this machine; its lines begin with >:"
    diff "$folder/own.txt" "$folder/aarch64.txt" || true
    exit 1
}
echo "$lines hashes are the same on 64-bit ARM"
