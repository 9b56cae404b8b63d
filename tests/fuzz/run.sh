#!/usr/bin/env bash
# Fuzzes the importer and the reader of notes for so many seconds each (60 where none are given), from the committed corpora.
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-60}
cargo fuzz --version >/dev/null 2>&1 || cargo install cargo-fuzz --locked
for target in import notes; do
    corpus=tests/data/imports
    if [ "$target" = notes ]; then corpus=scenarios; fi
    mkdir -p "target/fuzz/$target"
    cargo +nightly fuzz run --fuzz-dir tests/fuzz --target-dir target/fuzz "$target" "target/fuzz/$target" "$corpus" -- \
        -max_total_time="$seconds" -max_len=65536 -artifact_prefix="target/fuzz/$target-"
done
