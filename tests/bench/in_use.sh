#!/usr/bin/env bash
# Which functions a session runs, written to ui/in_use.txt: a bath is carried on after a start, counts down, is seen from
# far and beside the stove. The build lays them together (ui/build.rs), so that the rest of the code stays on the disk.
# Programs that are built differently have different functions, since what is small is put into its callers. With the names
# of two the list fits what a third compiler makes better:
#
#   export CARGO_PROFILE_RELEASE_STRIP=none
#   cargo build --release --bin potside --example baths_going && cp target/release/potside target/small
#   cargo build --release --bin potside --config 'profile.release.package.potside.opt-level="z"'
#   tests/bench/in_use.sh target/small target/release/potside
#
# Skipped where Xvfb, xdotool, nm or Python is absent.
set -euo pipefail
here=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")" && pwd)
# shellcheck source=tests/bench/screen.sh
. "$here/screen.sh"

target=${CARGO_TARGET_DIR:-$here/../../target}/release
list=$here/../../ui/in_use.txt

need Xvfb:xvfb xdotool:xdotool ps:procps nm:binutils python3:python3
[ $# -gt 0 ] || stop "which programs? See the head of $0"
[ -x "$target/examples/baths_going" ] || stop "run: cargo build --release --example baths_going"

# Plays the session and adds what ran to $scratch/ran.
session() {
    rm -rf "$scratch/data" "$scratch/screen" "$scratch/number"
    open_screen
    mkdir "$scratch/data"
    "$target/examples/baths_going" "$scratch/data" 1
    python3 "$here/in_use.py" "$scratch/one" "$1" --data "$scratch/data" 2>"$scratch/said" &
    stove=$!
    sleep 6
    carry_on 1
    # Near, then far, then near again.
    for _ in 1 2; do
        sleep 12
        xdotool mousemove 330 60 click 1
    done
    sleep 25
    firm_tap 330 60
    sleep 2
    # To the stove and back to the pot.
    firm_tap 738 287
    sleep 5
    firm_tap 400 130
    sleep 5
    must_count
    kill "$stove"
    wait "$stove" 2>/dev/null || true
    stove=
    kill "$display"
    wait "$display" 2>/dev/null || true
    [ -s "$scratch/one" ] || stop "nothing was seen to run: $(tail -n 1 "$scratch/said")"
    cat "$scratch/one" >>"$scratch/ran"
}

for program; do
    session "$(readlink -f -- "$program")"
done

# What changes with the compiler and with each dependency is left open: the hashes, and in the newer manner of naming the
# hashes of crates, how far back a name is referred to, and which crate had an instance made.
{
    echo "# The functions that a session runs, by the linker's names, with hashes left open. Made by tests/bench/in_use.sh."
    echo "# A list that is out of date costs memory and nothing else."
    sed -E -e 's/17h[0-9a-f]{16}E.*/17h*/' -e '/^_R/ { s/\.[0-9.a-z]+$//; s/Cs[0-9A-Za-z]+_/Cs*_/g; s/B[0-9A-Za-z]{0,3}_/B*_/g; s/Cs\*_[0-9]+[a-z_]+$//; s/$/*/ }' \
        "$scratch/ran" | LC_ALL=C sort -u
} >"$list"
echo "$(grep -vc '^#' "$list") names are in ui/in_use.txt"
