#!/usr/bin/env bash
# Hands over the birds of tests/data/handover in every form, and lets other programs read them: a validator of HTML and an engine for
# accessibility (npm), a browser that prints (one page, no error), and a reader of PDF (one page, every heading in order).
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${1:-target/debug/coopside}
out=target/oracle/sheets
mkdir -p "$out" target/oracle/npm
rm -f "$out"/*
cp tests/oracle/package.json target/oracle/npm/
npm install --silent --no-audit --no-fund --prefix target/oracle/npm
headings="AGE AND TIME|MECHANISM|INJURIES|SIGNS|TREATMENT|SITUATION|BACKGROUND|ASSESSMENT|RECOMMENDATION|NOT KNOWN"
for bird in tests/data/handover/*.ron; do
    name=$(basename "$bird" .ron)
    for form in html pdf json md txt; do
        "$program" handover "$bird" --at 2026-05-01T14:00:00Z -o "$out/$name.$form" >/dev/null
    done
    PYTHONPATH=target/oracle python3 tests/oracle/schema.py assets/schema/handover-1.json <"$out/$name.json"
    pages=$(pdfinfo "$out/$name.pdf" | awk '/^Pages:/ { print $2 }')
    [ "$pages" = 1 ] || { echo "$name.pdf has $pages pages" >&2; exit 1; }
    order=$(pdftotext "$out/$name.pdf" - | grep -xE "$headings" | tr '\n' '|')
    [ "$order" = "$headings|" ] || { echo "$name.pdf: the parts stand as $order" >&2; exit 1; }
    pdftotext "$out/$name.pdf" - | tr '\n' ' ' | grep -q "no vet has reviewed it" || { echo "$name.pdf bears no caution" >&2; exit 1; }
    # A browser prints the page; what it would say on its console is an error here.
    said=$(timeout 60 chromium --headless --no-sandbox --disable-gpu --enable-logging=stderr --v=0 --no-pdf-header-footer \
        --print-to-pdf="$out/$name.browser.pdf" "file://$PWD/$out/$name.html" 2>&1 | grep -i "CONSOLE" || true)
    [ -z "$said" ] || { echo "$name.html: $said" >&2; exit 1; }
    pages=$(pdfinfo "$out/$name.browser.pdf" | awk '/^Pages:/ { print $2 }')
    [ "$pages" = 1 ] || { echo "$name.html prints on $pages pages" >&2; exit 1; }
done
node tests/oracle/sheet.mjs "$PWD/target/oracle/npm" "$out"/*.html
