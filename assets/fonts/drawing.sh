#!/usr/bin/env bash
# How DejaVuSansMono-drawing.ttf was made from DejaVu Sans Mono 2.37, with pyftsubset of fontTools (PyPI, `fonttools`): Latin letters,
# dashes, arrows, boxes, blocks, plain shapes and braille, without hints, which no printed page needs.
set -euo pipefail
pyftsubset "${1:?the full DejaVuSansMono.ttf}" --no-hinting --output-file="$(dirname "$0")/DejaVuSansMono-drawing.ttf" \
    --unicodes='U+0020-007E,U+00A0-017F,U+2010-2026,U+2190-21FF,U+2500-25FF,U+2800-28FF'
