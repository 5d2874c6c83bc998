#!/usr/bin/env bash
# Asks music21 again: the committed tables must come out as they are, and every numeral of
# the RomanText analyses that it carries must mean the same to us; scores that we render
# must read back as they were spelled. Needs Python with venv
# and PyPI; says so where they are missing, and fails if CI=true.
set -euo pipefail
cd "$(dirname "$0")/.."

skip() {
    echo "oracle: skipped, $1"
    if [ "${CI:-}" = true ]; then exit 1; else exit 0; fi
}

command -v python3 >/dev/null || skip "there is no python3"
recipes=tests/outside
venv="${PLAGAL_ORACLE_VENV:-${TMPDIR:-/tmp}/plagal-oracle}"
if [ ! -x "$venv/bin/pip" ]; then
    rm -rf "$venv"
    python3 -m venv "$venv" || skip "python3 has no venv or pip"
fi
"$venv/bin/pip" install --quiet --requirement "$recipes/requirements.txt" ||
    skip "pip cannot install $(tr '\n' ' ' <"$recipes/requirements.txt")"

fresh="$(mktemp -d)"
trap 'rm -rf "$fresh"' EXIT
export PYTHONDONTWRITEBYTECODE=1
for recipe in spelling symbols roman_text pitches catalogue; do
    "$venv/bin/python" "$recipes/$recipe.py" "$fresh"
    diff -u "$recipes/$recipe.tsv" "$fresh/$recipe.tsv"
done
"$venv/bin/python" "$recipes/corpus.py" "$fresh"
PLAGAL_ROMAN_TEXT="$fresh/corpus.tsv" "${CARGO:-cargo}" test --test outside roman_text -- --ignored --nocapture
"$venv/bin/python" "$recipes/scores.py" "${CARGO:-cargo}" run --quiet --
