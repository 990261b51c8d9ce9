#!/usr/bin/env bash
# Our heat sections beside a general finite-element engine: the same cases, time to the same error,
# one table. Processor time (user and system) of whole programs, start-up and reading included, best
# of three. Installs nothing: without the engine (Debian package freefem++) it says so and exits 77.
#   run.sh PATH/TO/pullback-cli [quick]
# References:
#   air    mean Nu 4.5216 at Ra 1e5, Pr 0.71: de Vahl Davis, Int. J. Numer. Meth. Fluids 3 (1983)
#          249 has 4.519; the last digits are of later refinements (from memory)
#   darcy  mean Nu 3.1115 at Ra* 100: our extrapolation from 80x80 and 120x120, as in verify
#   wall   U 0.40965 W/(m2 K): the finest mesh of stud_bay.edp (-n 4, 64192 unknowns)
set -u
here=$(cd "${0%/*}" && pwd)
cli=${1:-}
quick=${2:-}
if [ ! -x "$cli" ]; then
  echo "run.sh: expected the path of pullback-cli" >&2
  exit 2
fi
if ! command -v FreeFem++ >/dev/null; then
  echo "peers: skipped, there is no FreeFem++ on this machine"
  exit 77
fi
assets=$here/../../../assets/heat
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
TIMEFORMAT='%U %S'
times=3
repeats=20
[ -n "$quick" ] && times=1 && repeats=3

# seconds COUNT COMMAND..: least processor time of one run, output of the last in $work/out
seconds() {
  local count=$1 i
  shift
  : >"$work/all"
  for ((i = 0; i < times; i++)); do
    { time for ((k = 0; k < count; k++)); do timeout 300 "$@" >"$work/out" 2>"$work/err" || return 1; done; } 2>>"$work/all"
  done
  awk -v n="$count" '{t = ($1 + $2) / n; if (NR == 1 || t < best) best = t} END {printf "%.4f", best}' "$work/all"
}

# row CASE ENGINE SIZE VALUE REFERENCE SECONDS
row() {
  awk -v c="$1" -v e="$2" -v s="$3" -v v="$4" -v r="$5" -v t="$6" \
    'BEGIN {printf "%s,%s,%s,%.5f,%+.3f,%.4f\n", c, e, s, v, 100 * (v / r - 1), t}' | tee -a "$work/rows"
}

peer() { # CASE SCRIPT REFERENCE MESHES..
  local case=$1 script=$2 reference=$3 n t v u
  shift 3
  for n in "$@"; do
    t=$(seconds 1 FreeFem++ -nw -v 0 "$here/$script" -n "$n") ||
      { echo "peers: FreeFem++ failed on $script, mesh $n" >&2; exit 1; }
    v=$(awk '$1 == "nu" || $1 == "u" {print $2}' "$work/out")
    u=$(awk '$1 == "nu" || $1 == "u" {print $4}' "$work/out")
    row "$case" "finite elements" "$n ($u unknowns)" "$v" "$reference" "$t"
  done
}

ours() { # CASE FILE KEY REFERENCE GRIDS..
  local case=$1 file=$2 key=$3 reference=$4 g t v
  shift 4
  for g in "$@"; do
    t=$(seconds "$repeats" "$cli" heat "$file" --grid "$g" --json) ||
      { echo "peers: pullback-cli failed on $file" >&2; exit 1; }
    v=$(sed -n "s/.*\"$key\": *\([0-9.]*\).*/\1/p" "$work/out" | head -n 1)
    row "$case" ours "$g" "$v" "$reference" "$t"
  done
}

echo "case,engine,grid or mesh,value,error %,processor time s"
ours air "$assets/cavity_air_ra1e5.json" nusselt_mean 4.5216 16x16 20x20 24x24 32x32 48x48
peer air cavity_air.edp 4.5216 6 8 10 12 16
ours darcy "$assets/cavity_darcy_ra100.json" nusselt_mean 3.1115 24x24 32x32 48x48 80x80
peer darcy cavity_darcy.edp 3.1115 4 6 8 12
ours wall "$here/stud_bay.json" u_w_m2k 0.40965 16x64 24x64 32x128 64x256
if [ -n "$quick" ]; then
  peer wall stud_bay.edp 0.40965 1
else
  peer wall stud_bay.edp 0.40965 1 2
fi
echo
echo "case,error at most %,ours s,finite elements s,ratio"
for want in "air 0.5" "air 0.1" "darcy 0.5" "darcy 0.1" "wall 0.5" "wall 0.1"; do
  set -- $want
  awk -F, -v c="$1" -v w="$2" '
    $1 == c && $5 + 0 <= w && $5 + 0 >= -w {
      if ($2 == "ours") { if (!o || $6 < o) o = $6 } else if (!p || $6 < p) p = $6 }
    END { if (o && p) printf "%s,%s,%.4f,%.3f,%.0f\n", c, w, o, p, p / o
          else printf "%s,%s,%s,%s,not reached by both\n", c, w, o, p }' "$work/rows"
done
