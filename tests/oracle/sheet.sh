#!/usr/bin/env bash
# Hands over the birds of tests/data/handover and the practice flock in every form, and lets other programs read them: a validator of
# HTML and an engine for accessibility (npm), a browser that prints (one page, no error), and a reader of PDF (one page, every heading
# in order). Cage cards of all of them likewise.
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${1:-target/debug/coopside}
out=target/oracle/sheets
rm -rf "$out"
mkdir -p "$out" target/oracle/npm
cp tests/oracle/package.json target/oracle/npm/
npm install --silent --no-audit --no-fund --prefix target/oracle/npm
headings="AGE AND TIME|MECHANISM|INJURIES|SIGNS|TREATMENT|SITUATION|BACKGROUND|ASSESSMENT|RECOMMENDATION|NOT KNOWN"
export PYTHONPATH=target/oracle

fail() { echo "$*" >&2; exit 1; }
pages() { pdfinfo "$1" | awk '/^Pages:/ { print $2 }'; }

# A browser prints the page; what it would say on its console is an error here.
printed() {
    timeout 60 chromium --headless --no-sandbox --disable-gpu --enable-logging=stderr --v=0 --no-pdf-header-footer \
        --print-to-pdf="$out/$1.browser.pdf" "file://$PWD/$out/$1.html" >"$out/browser.log" 2>&1 || fail "$1.html: no browser prints it"
    ! grep -i "CONSOLE" "$out/browser.log" || fail "$1.html: see above"
    [ "$(pages "$out/$1.browser.pdf")" = 1 ] || fail "$1.html prints on $(pages "$out/$1.browser.pdf") pages"
}

# `sheet NAME BIRD [DATA]`
sheet() {
    for form in html pdf json md txt; do
        "$program" handover "$2" ${3:+--data "$3"} --at "$at" -o "$out/$1.$form" >/dev/null
    done
    python3 tests/oracle/schema.py assets/schema/handover-2.json <"$out/$1.json"
    [ "$(pages "$out/$1.pdf")" = 1 ] || fail "$1.pdf has $(pages "$out/$1.pdf") pages"
    # In the order in which they were written, and as tagged headings for whoever has the page read out.
    order=$(pdftotext -raw "$out/$1.pdf" - | grep -xE "$headings" | tr '\n' '|')
    [ "$order" = "$headings|" ] || fail "$1.pdf: the parts stand as $order"
    order=$(pdfinfo -struct-text "$out/$1.pdf" 2>/dev/null | grep -A1 "^ *H2" | sed -n 's/^ *"\(.*\)"$/\1/p' | grep -xE "$headings" | tr '\n' '|')
    [ "$order" = "$headings|" ] || fail "$1.pdf: the parts are read out as $order"
    pdftotext -raw "$out/$1.pdf" - | tr '\n' ' ' >"$out/read.txt"
    grep -q "no vet has reviewed it" "$out/read.txt" || fail "$1.pdf bears no caution"
    # Where there is a reason, both labels stand with it: what the finding rests on, and whose the advice is.
    if grep -q "Finding: " "$out/$1.txt"; then
        for label in "Finding: " "Advice: "; do grep -q "$label" "$out/read.txt" || fail "$1.pdf lacks a label"; done
    fi
    printed "$1"
}

at=2026-05-01T14:00:00Z
for bird in tests/data/handover/*.ron; do
    sheet "$(basename "$bird" .ron)" "$bird"
done
# Letters that run from right to left are read in the order they were typed.
pdftotext "$out/hostile.pdf" - | grep -c "الدجاج في الحظيرة" >/dev/null || fail "hostile.pdf turns Arabic round"
# The hardest: five wounds over twelve days, as the tests left it.
sheet five Rue target/tmp/five
# Birds kept for days: their weights and wounds are drawn. Without a terminal the flock is loaded and the screen refuses to open.
if "$program" --data "$out/data" practise --flock </dev/null >/dev/null 2>&1; then fail "a screen opened without a terminal"; fi
at=$(date -u +%Y-%m-%dT%H:%M:%SZ)
for bird in Saffron Borage Tansy; do
    sheet "$bird" "$bird" "$out/data/practice"
done
grep -q "<polyline" "$out/Saffron.html" || fail "Saffron's weights are not drawn"

for form in html pdf json md txt; do
    "$program" handover --cards tests/data/handover/*.ron --at "$at" -o "$out/cards.$form" >/dev/null
done
python3 tests/oracle/schema.py assets/schema/cards-2.json <"$out/cards.json"
[ "$(pdftotext -raw "$out/cards.pdf" - | grep -c "^NEXT LOOK")" = "$(ls tests/data/handover/*.ron | wc -l)" ] || fail "cards.pdf lacks a card"
printed cards

# The packet for a vet: an evening's pages, every leaf with its number, its choice and its caution on each of them.
for form in html pdf; do "$program" review --data "$out/none" -o "$out/packet.$form" >/dev/null; done
count=$(pages "$out/packet.pdf")
[ "$count" -le 60 ] || fail "packet.pdf has $count pages"
[ "$(pdftotext -raw "$out/packet.pdf" - | grep -c "^Page [0-9]* of $count\. Coopside is no vet")" = "$count" ] || fail "packet.pdf lacks a page's foot"
[ "$(pdftotext -raw "$out/packet.pdf" - | grep -cE "^[BR][0-9]+ . agree . change . reject")" = "$(grep -c "<textarea" "$out/packet.html")" ] || fail "packet.pdf lacks a choice"
node tests/oracle/sheet.mjs "$PWD/target/oracle/npm" "$out"/*.html
