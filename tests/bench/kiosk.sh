#!/usr/bin/env bash
# The run screen as the program paints it, beside the same screen as a plain page in a browser in kiosk mode: memory,
# processor time while a countdown changes each second, and the time to the first paint. Both in one run, one after the
# other, three times; read the ratios. Skipped where Xvfb, xdotool or chromium is absent.
# Usage: tests/bench/kiosk.sh [SECONDS]   (after cargo build --release --bins --examples)
set -euo pipefail
here=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")" && pwd)
# shellcheck source=tests/bench/screen.sh
. "$here/screen.sh"

readonly seconds=${1:-60} repeats=3
# So that the start isn't measured with the seconds.
readonly settle=15
# The far view comes up when nobody was near for 20 s; both screens are touched this often where nothing is.
readonly touched_every=15
# The colour of words on both screens, #1e1710, from blue to red.
readonly ink='\x10\x17\x1e'
target=${CARGO_TARGET_DIR:-$here/../../target}/release

running=
end() {
    [ -z "$running" ] || put_away "$running"
    [ -z "$display" ] || kill "$display" 2>/dev/null || true
    wait 2>/dev/null || true
    rm -rf "$scratch"
}

need Xvfb:xvfb xdotool:xdotool chromium:chromium ps:procps
for built in potside examples/baths_going; do
    [ -x "$target/$built" ] || stop "$target/$built isn't built; run: cargo build --release --bins --examples"
done

# Ends a program with all that belongs to it.
put_away() {
    local members
    mapfile -t members < <(family "$1")
    kill "${members[@]}" 2>/dev/null || true
    sleep 1
    kill -9 "${members[@]}" 2>/dev/null || true
    wait "$1" 2>/dev/null || true
    running=
}

now_ms() {
    echo $((${EPOCHREALTIME//[^0-9]/} / 1000))
}

# Starts a program and looks at the screen until its words are there. Sets $running, $paint and $words, in ms from the
# start: to the first pixel that isn't the bare screen's, and to the first pixel in the colour of words.
start() {
    local begun bare=$scratch/bare
    cp "$pixels" "$bare"
    paint=
    words=
    begun=$(now_ms)
    setsid "$@" >"$scratch/said" 2>&1 &
    running=$!
    while [ -z "$words" ]; do
        [ -d /proc/"$running" ] || stop "$1 is gone: $(tail -n 1 "$scratch/said")"
        [ $(($(now_ms) - begun)) -lt 60000 ] || stop "$1 paints nothing for a minute"
        if [ -z "$paint" ] && ! cmp -s "$bare" "$pixels"; then paint=$(($(now_ms) - begun)); fi
        if [ -n "$paint" ] && shows "$ink"; then words=$(($(now_ms) - begun)); fi
        sleep 0.01
    done
}

# Lets the seconds pass. Sets $cost and $screen_cost in ms of processor time, $held and $written in MB.
measure() {
    local members left
    sleep "$settle"
    must_count
    mapfile -t members < <(family "$running")
    spent "${members[@]}" >"$scratch/before"
    spent "$display" >"$scratch/screen-before"
    for ((left = seconds; left > 0; left -= touched_every)); do
        sleep $((left < touched_every ? left : touched_every))
        xdotool mousemove 330 60 click 1
    done
    mapfile -t members < <(family "$running")
    spent "${members[@]}" >"$scratch/after"
    spent "$display" >"$scratch/screen-after"
    cost=$(spent_between "$scratch/before" "$scratch/after")
    screen_cost=$(spent_between "$scratch/screen-before" "$scratch/screen-after")
    held=$(memory Pss "${members[@]}")
    written=$(memory Private_Dirty "${members[@]}")
    count=${#members[@]}
}

ours() {
    rm -rf "$scratch/data"
    mkdir "$scratch/data"
    "$target/examples/baths_going" "$scratch/data" 1
    start "$target/potside" --data "$scratch/data"
    sleep 1
    carry_on 1
    measure
    resident=$(awk '/^VmRSS/ { printf "%.1f\n", $2 / 1024 }' /proc/"$running"/status)
    put_away "$running"
}

# A fresh profile, no names resolved, nothing fetched. Its own sandbox doesn't run under the superuser.
page() {
    local sandbox=()
    [ "$(id -u)" -ne 0 ] || sandbox=(--no-sandbox)
    rm -rf "$scratch/profile"
    start chromium --kiosk --user-data-dir="$scratch/profile" "${sandbox[@]}" --no-first-run \
        --no-default-browser-check --disable-background-networking --disable-component-update --disable-sync \
        --host-resolver-rules="MAP * ~NOTFOUND" --password-store=basic --force-color-profile=srgb \
        --window-position=0,0 --window-size=800,480 "file://$here/kiosk.html"
    measure
    put_away "$running"
}

row() { # measure, repeat, ours, theirs
    awk -v what="$1" -v n="$2" -v a="$3" -v b="$4" \
        'BEGIN { printf "| %s | %d | %s | %s | 1/%.1f |\n", what, n, a, b, b / a }'
    echo "$1:$3:$4" >>"$scratch/rows"
}

# The middle of the ratios against an aim.
verdict() {
    grep "^$1:" "$scratch/rows" | awk -F: '{ print $3 / $2 }' | sort -n |
        awk -v what="$1" -v aim="$2" '
            { ratio[NR] = $1 }
            END {
                middle = ratio[int((NR + 1) / 2)]
                printf "%s: middle ratio 1/%.1f, aim 1/%d: %s\n", what, middle, aim, (middle >= aim ? "held" : "MISSED")
            }'
}

chromium --version
echo "| measure | repeat | Potside | page in a browser | ratio |"
echo "| --- | --- | --- | --- | --- |"
for ((repeat = 1; repeat <= repeats; repeat++)); do
    open_screen
    ours
    our_paint=$paint our_words=$words our_cost=$cost our_screen=$screen_cost our_held=$held our_written=$written
    kill "$display"
    wait "$display" 2>/dev/null || true
    rm -rf "$scratch/screen" "$scratch/number"
    open_screen
    page
    row "memory, PSS, MB" "$repeat" "$our_held" "$held"
    row "of it written to, MB" "$repeat" "$our_written" "$written"
    row "processor, ms in $seconds s" "$repeat" "$our_cost" "$cost"
    row "the same of the display server" "$repeat" "$our_screen" "$screen_cost"
    row "first paint, ms" "$repeat" "$our_paint" "$paint"
    row "first words, ms" "$repeat" "$our_words" "$words"
    echo "| resident, RSS, MB | $repeat | $resident | $count processes | |"
    kill "$display"
    wait "$display" 2>/dev/null || true
    rm -rf "$scratch/screen" "$scratch/number"
done
verdict "memory, PSS, MB" 30
verdict "processor, ms in $seconds s" 4
verdict "first paint, ms" 3
verdict "first words, ms" 3
