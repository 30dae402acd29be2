#!/usr/bin/env bash
# What the program costs while nobody touches it: processor time over a minute or more, and resident memory. With pots
# going their counts run down; after twenty seconds the far view stands. Skipped where Xvfb or xdotool is absent.
# Usage: tests/bench/idle.sh [PROGRAM] [SECONDS] [POTS]   (with pots after cargo build --release --example baths_going)
set -euo pipefail
here=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")" && pwd)
# shellcheck source=tests/bench/screen.sh
. "$here/screen.sh"

program=${1:-target/release/potside}
seconds=${2:-60}
pots=${3:-0}

need Xvfb:xvfb xdotool:xdotool ps:procps
open_screen
mkdir "$scratch/data"
if [ "$pots" -gt 0 ]; then
    "$(dirname -- "$program")/examples/baths_going" "$scratch/data" "$pots"
fi
"$program" --data "$scratch/data" 2>/dev/null &
stove=$!
sleep 4
[ "$pots" -eq 0 ] || carry_on "$pots"
# The far view has come up by then.
sleep 22
[ "$pots" -eq 0 ] || must_count
mapfile -t members < <(family "$stove")
spent "${members[@]}" >"$scratch/before"
sleep "$seconds"
spent "${members[@]}" >"$scratch/after"
spent_between "$scratch/before" "$scratch/after" |
    awk -v s="$seconds" -v p="$pots" '{ printf "pots: %d\nprocessor: %.3f %% of one core\n", p, $1 / (s * 10) }'
awk '/VmRSS/ { printf "resident: %.1f MB\n", $2 / 1024 }' /proc/"$stove"/status
echo "proportional: $(memory Pss "${members[@]}") MB"
