#!/usr/bin/env bash
# Installs what judging is measured against, and measures. Needs a network, a C compiler, make, and Node.js.
set -euo pipefail
cd "$(dirname "$0")"
out=${1:-../../target/yardstick}
mkdir -p "$out"
out=$(cd "$out" && pwd)
CARGO_TARGET_DIR="$out" cargo run -q --release -- "$out"
cp rules.mjs "$out/"
npm install --silent --no-save --prefix "$out" json-rules-engine@7.3.1 >/dev/null
node "$out/rules.mjs" "$out/rules.json"
