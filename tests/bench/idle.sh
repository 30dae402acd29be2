#!/usr/bin/env bash
# What the open stove costs while nothing happens: resident memory, and processor time over a minute or more.
# Needs Xvfb and a built program. Usage: tests/bench/idle.sh [PROGRAM] [SECONDS]
set -euo pipefail
program=${1:-target/release/potside}
seconds=${2:-60}
command -v Xvfb >/dev/null || { echo "no Xvfb here; install the package xvfb"; exit 1; }
data=$(mktemp -d)
Xvfb :97 -screen 0 800x480x24 >/dev/null 2>&1 &
display=$!
trap 'kill "$stove" "$display" 2>/dev/null || true; rm -rf "$data"' EXIT
sleep 1
DISPLAY=:97 "$program" --data "$data" 2>/dev/null &
stove=$!
sleep 5
spent() { cat /proc/"$stove"/task/*/schedstat | awk '{ total += $1 } END { print total }'; }
before=$(spent)
sleep "$seconds"
after=$(spent)
awk -v a="$before" -v b="$after" -v s="$seconds" 'BEGIN { printf "processor: %.3f %% of one core\n", (b - a) / (s * 1e9) * 100 }'
awk '/VmRSS/ { printf "resident: %.1f MB\n", $2 / 1024 }' /proc/"$stove"/status
