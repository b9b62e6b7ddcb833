#!/bin/sh
# The start of the real program, from its process to its first painted window, with a logbook to
# open: the median of 11 warm starts. The passphrase of a real book takes its half second on purpose,
# so that the start ends where it is asked for.
# Usage: tests/bench/start.sh build/release/bin/groovekeeper FILE.gkbook [most milliseconds]
set -eu
program=$1
book=$2
most=${3:-500}
: "${QT_QPA_PLATFORM:=offscreen}"
export QT_QPA_PLATFORM
for _ in 1 2 3; do "$program" --until-painted "$book" 2>/dev/null; done
for _ in 1 2 3 4 5 6 7 8 9 10 11; do
  from=$(date +%s%N)
  "$program" --until-painted "$book" 2>/dev/null
  echo $((($(date +%s%N) - from) / 1000))
done | sort -n | awk -v most="$most" '
  { took[NR] = $1 / 1000 }
  END {
    printf "start to painted: median %.0f, worst %.0f ms of %d starts\n", took[(NR + 1) / 2], took[NR], NR
    exit took[(NR + 1) / 2] > most
  }'
