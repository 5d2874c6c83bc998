#!/usr/bin/env bash
# A sound server without a sound card, for tests that play and listen.
#
#   .ci/null-sink.sh run COMMAND...   starts one, runs COMMAND against it, ends it
#   .ci/null-sink.sh start DIRECTORY  starts one that lives in DIRECTORY
#   .ci/null-sink.sh stop DIRECTORY   kills it without ceremony
#
# Needs the packages pulseaudio, pulseaudio-utils and libasound2-plugins. PLAGAL_NULL_SINK
# tells the tests where the server lives.
set -euo pipefail

start() {
  local directory=$1
  XDG_RUNTIME_DIR=$directory PULSE_RUNTIME_PATH=$directory setsid pulseaudio -n \
    --daemonize=no --exit-idle-time=-1 --use-pid-file=no --realtime=no --high-priority=no \
    -L "module-null-sink sink_name=ci rate=48000 channels=2 format=float32le" \
    -L "module-native-protocol-unix auth-anonymous=1 socket=$directory/native" \
    >"$directory/log" 2>&1 </dev/null &
  echo $! >"$directory/pid"
  disown
  for _ in $(seq 100); do
    if pactl --server="unix:$directory/native" info >/dev/null 2>&1; then return; fi
    sleep 0.1
  done
  echo "the sound server did not start:" >&2
  cat "$directory/log" >&2
  exit 1
}

stop() {
  kill -KILL "$(cat "$1/pid")" 2>/dev/null || true
  rm -f "$1/native"
}

case ${1:-} in
  start) start "$2" ;;
  stop) stop "$2" ;;
  run)
    shift
    directory=$(mktemp -d)
    trap 'stop "$directory"; rm -rf "$directory"' EXIT
    export PLAGAL_NULL_SINK=$directory
    export XDG_RUNTIME_DIR=$directory PULSE_RUNTIME_PATH=$directory
    export PULSE_SERVER=unix:$directory/native PULSE_COOKIE=$directory/cookie
    start "$directory"
    "$@"
    ;;
  *)
    sed -n '2,9s/^# \{0,1\}//p' "$0" >&2
    exit 2
    ;;
esac
