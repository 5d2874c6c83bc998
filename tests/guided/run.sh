#!/usr/bin/env bash
# Fuzzes one reader, or all, guided by coverage: run.sh [READER|all] [RUNS]. What it finds is
# left in the folder that it names at the end.
set -euo pipefail
cd "$(dirname "$0")"
which="${1:-all}" runs="${2:-100000}"
# What cargo-fuzz sets, without its sanitizer: nothing here is unsafe.
flags="-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4"
flags+=" -Cllvm-args=-sanitizer-coverage-inline-8bit-counters"
flags+=" -Cllvm-args=-sanitizer-coverage-pc-table -Cllvm-args=-sanitizer-coverage-trace-compares"
flags+=" --cfg fuzzing"
target="$(rustc -vV | sed -n 's/^host: //p')"
RUSTFLAGS="$flags" cargo build --quiet --release --target "$target"
program="${CARGO_TARGET_DIR:-target}/$target/release/guided"
work="${PLAGAL_CORPUS:-$(mktemp -d)}"
readers="numeral line symbol RomanText key pattern exercise settings sound device journal answer"
[ "$which" = all ] || readers="$which"
for reader in $readers; do
    mkdir -p "$work/$reader/samples" "$work/$reader/found"
    echo "== $reader"
    # A first run of nothing writes the samples.
    PLAGAL_READER="$reader" PLAGAL_SAMPLES="$work/$reader/samples" "$program" -runs=0 2>/dev/null || true
    PLAGAL_READER="$reader" "$program" -runs="$runs" -timeout=10 -rss_limit_mb=2048 -max_len=8192 \
        -print_final_stats=1 -verbosity=0 -artifact_prefix="$work/$reader/" \
        "$work/$reader/found" "$work/$reader/samples" 2>&1 | grep -v '^INFO' || true
done
echo "$work"
