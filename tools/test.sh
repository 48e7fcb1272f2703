#!/bin/sh
# SPDX-License-Identifier: LGPL-2.1-or-later
# Install what is missing (Debian 12 or newer; root, or a user with sudo) and run every test: style and types, plain
# Python without FreeCAD, FreeCAD without a window, and the full FreeCAD under Xvfb. Arguments go to pytest and limit
# what it runs: sh tools/test.sh tests/test_house.py -k icons
# STACKLAM_SLOW=yes runs the large corpora too.
set -eu
. "$(dirname -- "$0")/setup.sh"

setup_tests

mkdir -p "$ROOT/out"
cd "$ROOT"
LOGS=$(mktemp -d "${TMPDIR:-/tmp}/stacklam-test.XXXXXX")
trap 'rm -rf "$LOGS"' EXIT
trap 'exit 130' INT TERM
FAILED=
SUMMARY=
RAN=

note() {
    SUMMARY="$SUMMARY
$1"
    say "$1"
}

# phase NAME COMMAND…: run it, show and keep its output; the status in `status`, the output in $LOGS/NAME.
phase() {
    name=$1
    shift
    say ""
    say "== $name"
    { { "$@" 2>&1 || printf '%s' "$?" >"$LOGS/status"; } </dev/null | tee "$LOGS/$name"; }
    status=0
    if [ -e "$LOGS/status" ]; then
        status=$(cat "$LOGS/status")
        rm "$LOGS/status"
    fi
}

check() {
    phase "$@"
    if [ "$status" = 0 ]; then
        note "$name: clean"
    else
        FAILED="$FAILED $name"
        note "$name: FAILED"
    fi
}

# tests NAME COMMAND…: pytest; its closing line is the summary. No tests is a failure, unless the arguments chose them.
tests() {
    phase "$@"
    line=$(tail -n 1 "$LOGS/$name" | sed 's/^=* *//; s/ *=*$//')
    if [ "$status" = 5 ] && [ "$CHOSEN" = yes ]; then
        note "$name: none of the chosen tests belongs here"
        return
    fi
    RAN=yes
    if [ "$status" != 0 ]; then
        FAILED="$FAILED $name"
        # FreeCAD ends a crashed process with status 1 and no word.
        case $line in
            *" in "*s*) ;;
            *) line="the process died without a closing line, most likely in a crash; -v names the test" ;;
        esac
        line="FAILED (status $status): $line"
    elif [ "$name" != plain ] && grep -q Traceback "$LOGS/$name"; then
        # FreeCAD goes on after an exception in its own callbacks: only its output tells.
        FAILED="$FAILED $name"
        line="FAILED (a traceback in the output): $line"
    fi
    note "$name: $line"
}

say "$(freecad_version), $(sed -n 's/^PRETTY_NAME="\(.*\)"/\1/p' /etc/os-release)"
VERSION=$(freecad_version)

CHOSEN=no
[ $# = 0 ] || CHOSEN=yes
if [ $CHOSEN = yes ] || [ "${STACKLAM_STYLE:-yes}" = no ]; then
    note "style and types: not checked in this run"
else
    check ruff "$PYTHON" -m ruff check .
    check format "$PYTHON" -m ruff format --check .
    check mypy "$PYTHON" -m mypy
fi

# One worker a processor; a file's tests stay together, because they share what was expensive to plan. Those on a
# screen share nothing: each goes to whoever is free.
WORKERS="-n ${STACKLAM_WORKERS:-$(nproc)} --dist"

# Tests start FreeCAD and Python a hundred times: what is compiled once is kept (git ignores it). The workers fill the
# processors, so linear algebra that starts threads of its own only waits for them.
export PYTHONDONTWRITEBYTECODE= OPENBLAS_NUM_THREADS=1

# The server number differs from run to run, because roots that are tested side by side share the host's sockets.
# shellcheck disable=SC2086
tests plain "$PYTHON" -m pytest -q -p no:cacheprovider $WORKERS loadscope -m "not freecad and not gui and not slow" "$@"
tests freecad env PYTHONPATH="$FREECAD_PATH" QT_QPA_PLATFORM=offscreen \
    "$PYTHON" -m pytest -q -p no:cacheprovider $WORKERS loadscope -m "freecad and not gui and not slow" "$@"
tests gui xvfb-run -a -n "${STACKLAM_DISPLAY:-$((100 + $$ % 800))}" -s "-screen 0 1600x1000x24" \
    "$PYTHON" -m pytest -q -p no:cacheprovider $WORKERS worksteal -m "gui and not slow" "$@"
# shellcheck disable=SC2086
[ "${STACKLAM_SLOW:-no}" = no ] || tests slow env PYTHONPATH="$FREECAD_PATH" QT_QPA_PLATFORM=offscreen \
    "$PYTHON" -m pytest -q -p no:cacheprovider $WORKERS worksteal -m "slow and not gui" "$@"

say ""
say "== $VERSION$SUMMARY"
[ -n "$RAN" ] || stop "No test was run."
[ -z "$FAILED" ] || stop "FAILED:$FAILED"
