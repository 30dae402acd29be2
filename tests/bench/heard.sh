#!/usr/bin/env bash
# What of the program's sound check reaches a device: the real program plays through ALSA into a sound server of its own
# with a sink that nobody hears, whose monitor is recorded and measured. Then the server is ended in the middle of a
# check: the screen says NO SOUND, nothing spins, and once a server is back the next check is heard as the first was.
# Skipped where Xvfb, xdotool, PulseAudio or its plugin for ALSA is absent.
# Usage: tests/bench/heard.sh   (after cargo build --release --bins --examples)
set -euo pipefail
here=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")" && pwd)
# shellcheck source=tests/bench/screen.sh
. "$here/screen.sh"

# As a new bench is set.
readonly volume=80
# A check is five calls in some nine seconds.
readonly check=13
# The colour of a notice, #ecc13f, from blue to red.
readonly notice='\x3f\xc1\xec'
target=${CARGO_TARGET_DIR:-$here/../../target}/release

server=
recorder=
end() {
    local each
    for each in "$recorder" "$stove" "$server" "$display"; do
        [ -z "$each" ] || kill "$each" 2>/dev/null || true
    done
    wait 2>/dev/null || true
    rm -rf "$scratch"
}

need Xvfb:xvfb xdotool:xdotool pulseaudio:pulseaudio parec:pulseaudio-utils pactl:pulseaudio-utils ps:procps
compgen -G '/usr/lib/*/alsa-lib/libasound_module_pcm_pulse.so' >/dev/null ||
    skip "ALSA has no way to PulseAudio here (Debian's package libasound2-plugins)"
for built in potside examples/heard; do
    [ -x "$target/$built" ] || stop "$target/$built isn't built; run: cargo build --release --bins --examples"
done

serve() {
    local waited=0
    pulseaudio -n --daemonize=no --exit-idle-time=-1 --realtime=no --high-priority=no \
        -L module-native-protocol-unix -L "module-null-sink sink_name=heard rate=48000" >"$scratch/server" 2>&1 &
    server=$!
    until pactl info >/dev/null 2>&1; do
        waited=$((waited + 1))
        [ "$waited" -le 50 ] || stop "the sound server doesn't start: $(tail -n 1 "$scratch/server")"
        sleep 0.1
    done
}

now_ms() {
    echo $((${EPOCHREALTIME//[^0-9]/} / 1000))
}

# Whether the lowest row of the screen is a notice's.
says_notice() {
    tail -c 3200 "$pixels" | LC_ALL=C grep -qaP "$notice"
}

# Looks until a notice stands (yes) or none does (no); prints how many ms it took.
until_notice() {
    local begun
    begun=$(now_ms)
    while if says_notice; then [ "$1" = no ]; else [ "$1" = yes ]; fi; do
        [ $(($(now_ms) - begun)) -lt 20000 ] || stop "after 20 s a notice should be: $1"
        sleep 0.02
    done
    echo $(($(now_ms) - begun))
}

press_check() {
    xdotool mousemove 400 432 click 1
}

# A sound check, recorded and measured.
hear() {
    local before
    parec -d heard.monitor --format=float32le --rate=48000 --channels=1 --raw --latency-msec=10 >"$scratch/heard.raw" &
    recorder=$!
    sleep 2
    before=$(($(stat -c %s "$scratch/heard.raw") / 4))
    press_check
    sleep "$check"
    kill "$recorder"
    wait "$recorder" 2>/dev/null || true
    recorder=
    "$target/examples/heard" "$scratch/heard.raw" "$before" "$volume"
}

export XDG_RUNTIME_DIR=$scratch/run HOME=$scratch/home ALSA_CONFIG_PATH=$scratch/asound.conf
mkdir -m 700 "$XDG_RUNTIME_DIR" "$HOME"
printf 'pcm.!default { type pulse }\nctl.!default { type pulse }\n' >"$ALSA_CONFIG_PATH"
unset PULSE_SERVER PIPEWIRE_RUNTIME_DIR

open_screen
serve
# A bench that is set already, or the first start would ask for one.
mkdir "$scratch/data"
cat >"$scratch/data/bench.toml" <<END
format = 1
pot = "12 L, 26 cm, stainless"
burner = "induction, 2000 W"
lid = "loose"
altitude = "0 m"
tap = "15 C"
room = "20 C"
scale = "0.1 g"
theme = "kitchen"
volume = $volume
wet_hands = false
hazardous_metals = false
END
"$target/potside" --data "$scratch/data" >"$scratch/said" 2>&1 &
stove=$!
sleep 4
[ -d /proc/"$stove" ] || stop "the program is gone: $(tail -n 1 "$scratch/said")"
! says_notice || stop "NO SOUND stands though there is a server"
# The bench, where the sound check is.
xdotool mousemove 568 425 click 1
sleep 1

echo "a sound check, as it reached the device:"
hear

press_check
sleep 1.2
pulseaudio -k
wait "$server" 2>/dev/null || true
server=
echo "the server ended in the middle of a check: NO SOUND after $(until_notice yes) ms"
spent "$stove" >"$scratch/before"
sleep 5
spent "$stove" >"$scratch/after"
echo "processor time of the program in the 5 s after that: $(spent_between "$scratch/before" "$scratch/after") ms"

serve
echo "the server is back: the notice is gone after $(until_notice no) ms"
sleep 1
echo "a sound check after that:"
hear
