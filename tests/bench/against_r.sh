#!/bin/bash
# Groovekeeper's estimates against R's on one file of 1,000,000 sealants, one run each, one thread.
# usage: against_r.sh PATH/TO/groovekeeper-office [ROWS [GRID-DAYS]]
# Seconds of processor time, which a busy machine disturbs less than the clock. Ours are of the whole
# command: start, reading, estimate, answer. R's are of its estimate alone, so the ratio leans R's
# way; the reading is printed beside it. R's curve takes minutes on a grid of days. Exit 1 when a ratio is below 20 or the two
# answers differ.
set -euo pipefail
office=$(realpath "$1")
rows=${2:-1000000}
grid=${3:-91}
wanted=20
here=$(cd "$(dirname "$0")" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export OMP_NUM_THREADS=1 R_DATATABLE_NUM_THREADS=1
export LC_ALL=C

awk -v rows="$rows" -v seed=20261125 -v grid="$grid" -f "$here/make_rows.awk" > "$scratch/rows.csv"
echo "$rows rows, times on a grid of $grid days, $(date +%F), $(nproc --all) cores, $(
  sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1)"

at=$((8 * grid)) # an end of the grid: one number, no range, in both curves
failed=0
for verb in retention curve; do
  TIMEFORMAT='%U %S'
  { time "$office" estimate $verb "$scratch/rows.csv" --json > "$scratch/ours"; } 2> "$scratch/took"
  ours=$(awk '{ print $1 + $2 }' "$scratch/took")
  Rscript --vanilla "$here/against_r.R" $verb "$scratch/rows.csv" $at > "$scratch/r"
  if [ $verb = retention ]; then
    mine=$(sed -n 's/^ *"estimate": \([^,]*\),*$/\1/p' "$scratch/ours")
  else
    mine=$(tr -d ',' < "$scratch/ours" | awk -v at=$at '
      $1 == "\"right\":" { right = $2 }
      $1 == "\"mass\":" && right != "null" && right <= at { lost += $2 }
      END { printf "%.9f", 1 - lost }')
  fi
  awk -v verb=$verb -v ours="$ours" -v mine="$mine" -v wanted=$wanted '
    { said[$1] = $2 }
    END {
      theirs = verb == "retention" ? said["estimate"] : said["survival"]
      ratio = said["work"] / ours
      printf "%s: ours %.2f s in all; R %.2f s, and %.2f s to read; ratio %.1f; %.6f and %.6f\n",
        verb, ours, said["work"], said["reading"], ratio, mine, theirs
      if (ratio < wanted) { print verb ": below " wanted " times"; bad = 1 }
      apart = mine - theirs
      # survfit stops climbing a little before the maximum; ours reports its gap to it
      if (apart > 5e-4 || apart < -5e-4) { print verb ": the answers differ"; bad = 1 }
      exit bad
    }' "$scratch/r" || failed=1
done
exit $failed
