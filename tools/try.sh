#!/bin/sh
# SPDX-License-Identifier: LGPL-2.1-or-later
# Try StackLam: install what is missing (Debian 12 or newer; root, or a user with sudo), plan the bundled example, and
# say where the drawings lie.
set -eu
. "$(dirname -- "$0")/setup.sh"

setup_runtime

OUT=$ROOT/out/example
say "Planning the example with $(freecad_version)"
cd "$ROOT"
plan() {
    status=0
    PYTHONPATH=$ROOT:$FREECAD_PATH QT_QPA_PLATFORM=offscreen "$PYTHON" -m freecad_stacklam plan --out "$OUT" || status=$?
}
plan
# A project that was worked on since, or an earlier release's, is kept: the example goes beside it.
number=2
while [ "$status" = 2 ] && [ -e "$OUT/project.FCStd" ]; do
    OUT=$ROOT/out/example-$number
    say "Planning into $OUT instead"
    number=$((number + 1))
    plan
done
[ "$status" = 0 ] || stop "The example could not be planned (exit status $status)."
for file in drawings.pdf bill.csv project.FCStd bench.html; do
    [ -s "$OUT/$file" ] || stop "The plan says it is done, but $OUT/$file is missing or empty."
done

say ""
say "$OUT/drawings.pdf"
say "    the layer drawings: full-size templates to print at 100 %, an overview of each stack, and the pages of the glue-up"
say "$OUT/bill.csv"
say "    the bill of wood: every blank and tenon with its size, volume and board feet, and the totals"
say "$OUT/bench.html"
say "    the glue-up for a phone or tablet at the bench: open it in a browser, the countdown of the open time starts at a tap"
say "$OUT/project.FCStd"
say "    the form, its layers and the joint: open it in FreeCAD with the StackLam workbench"
