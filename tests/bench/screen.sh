# What the benches of the running program share: a screen of their own, taps on it, and what processes cost. Sourced.
# shellcheck shell=bash

scratch=$(mktemp -d)

# The program that is measured and the screen that it stands on: ended with the bench. One that starts more ends it by an
# `end` of its own.
stove=
display=
end() {
    [ -z "$stove" ] || kill "$stove" 2>/dev/null || true
    [ -z "$display" ] || kill "$display" 2>/dev/null || true
    wait 2>/dev/null || true
    rm -rf "$scratch"
}
trap end EXIT

# Each argument is a tool and the package that brings it, as in `Xvfb:xvfb`.
need() {
    local each
    for each; do
        command -v "${each%%:*}" >/dev/null || skip "no ${each%%:*} here (Debian's package ${each##*:})"
    done
}

skip() {
    echo "skipped: $1"
    exit 0
}

stop() {
    echo "$1" >&2
    exit 1
}

# Opens a screen of 800 x 480 whose pixels lie in the file $pixels; sets DISPLAY and $display.
open_screen() {
    local waited=0
    mkdir "$scratch/screen"
    Xvfb -displayfd 3 -screen 0 800x480x24 -nocursor -fbdir "$scratch/screen" 3>"$scratch/number" >/dev/null 2>&1 &
    # shellcheck disable=SC2034 # read by those who source this
    display=$!
    until [ -s "$scratch/number" ] && [ -s "$scratch/screen/Xvfb_screen0" ]; do
        waited=$((waited + 1))
        [ "$waited" -le 100 ] || stop "Xvfb doesn't start"
        sleep 0.1
    done
    DISPLAY=:$(tr -d '\n' <"$scratch/number")
    export DISPLAY
    pixels=$scratch/screen/Xvfb_screen0
}

# A firm tap at x, y: as long as dry hands need it, and a little.
firm_tap() {
    xdotool mousemove "$1" "$2" mousedown 1 sleep 0.45 mouseup 1
}

# Whether a count runs: within two seconds the screen has changed.
counts() {
    cp "$pixels" "$scratch/earlier"
    sleep 2
    ! cmp -s "$scratch/earlier" "$pixels"
}

must_count() {
    counts || stop "nothing counts down on the screen"
}

# Answers the cards of that many pots, carry on, until a count runs. The glass takes no tap for a second after a firm one,
# and on a busy machine one may go by unheard.
carry_on() {
    local tries
    for ((tries = 0; tries < 2 * $1 + 2; tries++)); do
        firm_tap 170 246
        sleep 2
        if counts; then return; fi
    done
    stop "the cards can't be answered"
}

# Whether a colour, three bytes of a regular expression from blue to red, is anywhere on the screen.
shows() {
    LC_ALL=C grep -qaP "$1" "$pixels"
}

# A process with everything that came from it: its descendants, and what left the tree but not the session.
family() {
    ps -e -o pid=,ppid=,sess= | awk -v root="$1" '
        { pid[NR] = $1; parent[$1] = $2; session[$1] = $3 }
        function belongs(p, depth) {
            for (depth = 0; depth < 64 && p > 1; depth++) { if (p == root) return 1; p = parent[p] }
            return 0
        }
        END { for (n = 1; n <= NR; n++) if (belongs(pid[n]) || session[pid[n]] == root) print pid[n] }'
}

# Nanoseconds on a processor, one line for each thread of the processes.
spent() {
    local process task
    for process; do
        for task in /proc/"$process"/task/*; do
            # A thread may end between the two.
            { echo "${task##*/} $(cut -d' ' -f1 "$task"/schedstat)"; } 2>/dev/null || true
        done
    done
}

# Between two lists of `spent`, in milliseconds. A thread that ended in between isn't counted.
spent_between() {
    awk 'NR == FNR { before[$1] = $2; next } { total += $2 - before[$1] } END { printf "%.1f\n", total / 1e6 }' "$1" "$2"
}

# A measure of the kernel's over the processes, in MB: `Pss` counts what they share once, `Private_Dirty` is what they
# wrote themselves and can't be dropped.
memory() { # measure, processes
    local process measure=$1
    shift
    for process; do
        if ! cat /proc/"$process"/smaps_rollup 2>/dev/null && [ -d /proc/"$process" ]; then
            stop "the memory of process $process can't be read; run this as the superuser"
        fi
    done | awk -v measure="$measure:" '$1 == measure { total += $2 } END { printf "%.1f\n", total / 1024 }'
}
