#!/bin/sh
# SPDX-License-Identifier: LGPL-2.1-or-later
# Run tools/try.sh and tools/test.sh on other Debian releases, each in a minimal root of its own: by default trixie
# (Debian 13, FreeCAD 1.0) and forky (FreeCAD 1.1). Needs root or sudo, debootstrap (installed if missing) and about
# 3 GB a root. Roots lie outside the checkout and are used again: under STACKLAM_ROOTS, else ~/.cache/stacklam/roots.
#
#   sh tools/matrix.sh [RELEASE…]      for instance: sh tools/matrix.sh bookworm
#
# The plain tests, which know no FreeCAD, are shared out among the roots; with STACKLAM_WHOLE=yes each runs them all.
# What cannot be run is named and fails the whole.
set -eu
. "$(dirname -- "$0")/setup.sh"

ROOTS=${STACKLAM_ROOTS:-${XDG_CACHE_HOME:-$HOME/.cache}/stacklam/roots}
MIRROR=${STACKLAM_MIRROR:-http://deb.debian.org/debian}
SCRIPTS=/usr/share/debootstrap/scripts
BUNDLE=/etc/ssl/certs/ca-certificates.crt
[ $# -gt 0 ] || set -- trixie forky
# The roots run side by side and share the processors.
STACKLAM_WORKERS=${STACKLAM_WORKERS:-$((($(nproc) + $# - 1) / $#))}
export STACKLAM_WORKERS

# --- inside: as root, in namespaces of its own -------------------------------------------------------------------------

# Take a root away, but never through a mount into the host's own folders.
remove_root() {
    if grep -q " $1/" /proc/self/mounts; then
        umount -R -l "$1/proc" "$1/dev" "$1/sys" 2>/dev/null || :
        ! grep -q " $1/" /proc/self/mounts || stop "$1 has folders of this machine mounted in it: unmount them first."
    fi
    rm -rf --one-file-system -- "$1"
}

# The settings that let this machine reach its mirror and package index hold inside the root too.
carry_settings() {
    cp -L /etc/resolv.conf "$1/etc/resolv.conf"
    cp -L /etc/hosts "$1/etc/hosts"
    {
        echo 'APT::Install-Recommends "0";'
        apt-config dump | grep -E '^Acquire::(http|https|Check|Retries)' || :
    } >"$1/etc/apt/apt.conf.d/90stacklam"
    [ ! -s "$BUNDLE" ] || cp -L "$BUNDLE" "$1/etc/stacklam-host-certificates.crt"
}

build_root() {
    say "$2: building the root in $1"
    remove_root "$1"
    remove_root "$1.part"
    mkdir -p "$1.part"
    # A release newer than this machine's debootstrap is made by sid's recipe.
    if [ -e "$SCRIPTS/$2" ]; then recipe=$SCRIPTS/$2; else recipe=$SCRIPTS/sid; fi
    debootstrap --variant=minbase "$2" "$1.part" "$MIRROR" "$recipe" || return 1
    mv "$1.part" "$1"
    date >"$1/etc/stacklam-root"
}

# A fresh copy of the working tree, without what git ignores; the root's own .venv and out stay.
copy_tree() {
    rm -rf -- "$1/srv/stacklam.new"
    mkdir -p "$1/srv/stacklam.new" "$1/srv/stacklam"
    cd "$ROOT"
    if git -c safe.directory="$ROOT" ls-files -co --exclude-standard -z >"$1/srv/names.all" 2>/dev/null; then
        xargs -0 sh -c 'for f do [ ! -e "$f" ] || printf "%s\0" "$f"; done' sh <"$1/srv/names.all" >"$1/srv/names"
        tar --null -cf "$1/srv/tree.tar" -T "$1/srv/names"
    else
        tar -cf "$1/srv/tree.tar" --exclude=./.venv --exclude=./out --exclude=./.git .
    fi
    tar -C "$1/srv/stacklam.new" --no-same-owner -xf "$1/srv/tree.tar"
    for kept in .venv out; do
        [ ! -d "$1/srv/stacklam/$kept" ] || mv "$1/srv/stacklam/$kept" "$1/srv/stacklam.new/$kept"
    done
    rm -rf -- "$1/srv/stacklam" "$1/srv/tree.tar" "$1/srv/names" "$1/srv/names.all"
    mv "$1/srv/stacklam.new" "$1/srv/stacklam"
}

# Variables that a root must have from this machine to reach the network, or to compute rightly on its processor.
passed_on() {
    env | grep -E '^(CI|STACKLAM_DISPLAY|STACKLAM_WORKERS|STACKLAM_SHARE|(http|https|no|HTTP|HTTPS|NO)_(proxy|PROXY)|PIP_(INDEX_URL|TRUSTED_HOST|DEFAULT_TIMEOUT)|OPENBLAS_[A-Z0-9_]+)=' |
        grep -v ' ' || :
}

run_inside() {
    root=$1 release=$2
    # One run at a time in one root.
    mkdir -p "${root%/*}"
    exec 8>"$root.lock"
    flock -n 8 || { say "$release: waiting for another run in $root"; flock 8; }
    [ -e "$root/etc/stacklam-root" ] || build_root "$root" "$release" || stop "$release: the root could not be built."
    carry_settings "$root"
    mount -t proc proc "$root/proc"
    mount --rbind /dev "$root/dev"
    mount --rbind /sys "$root/sys"
    copy_tree "$root"
    certificates=
    [ ! -e "$root/etc/stacklam-host-certificates.crt" ] || certificates=PIP_CERT=/etc/stacklam-host-certificates.crt
    # shellcheck disable=SC2046,SC2086 # lists of NAME=VALUE without spaces
    inside() {
        env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 STACKLAM_STYLE=no $certificates \
            $(passed_on) chroot "$root" "$@" 8>&-
    }
    result=0
    inside sh /srv/stacklam/tools/try.sh || { result=1; say "FAILED: tools/try.sh on $release"; }
    inside sh /srv/stacklam/tools/test.sh || { result=1; say "FAILED: tools/test.sh on $release"; }
    return "$result"
}

if [ "$1" = --inside ]; then
    run_inside "$2" "$3"
    exit
fi

# --- outside ----------------------------------------------------------------------------------------------------------

locked install_packages debootstrap
mkdir -p "$ROOTS" "$ROOT/out"
ROOTS=$(CDPATH='' cd -- "$ROOTS" && pwd -P)
[ "$(id -u)" = 0 ] || as_root true
STARTED=$(date +%s)

# In namespaces of its own: when unshare ends, all that runs inside ends, and its mounts are gone.
one_root() {
    release=$1
    log=$ROOT/out/matrix-$release.log
    # shellcheck disable=SC2046 # a list of NAME=VALUE without spaces
    as_root env STACKLAM_MIRROR="$MIRROR" STACKLAM_DISPLAY="$2" STACKLAM_SHARE="$3" $(passed_on) \
        sh -c 'echo $$ >"$0.pid" && exec "$@"' "$log" \
        unshare --mount --pid --fork --kill-child --propagation private -- \
        sh "$ROOT/tools/matrix.sh" --inside "$ROOTS/$release" "$release" >"$log" 2>&1 </dev/null &
    # unshare passes no other signal on
    trap 'as_root kill -KILL "$(cat "$log.pid")"; exit 1' TERM
    status=0
    wait $! || status=$?
    echo "$status" >"$log.status"
    rm -f "$log.pid"
    say "$release: ended with status $status after $(($(date +%s) - STARTED)) s"
}

RUNNING=
# The roots share the sockets of this machine, so each gets a screen number of its own.
screen=$((1000 + $$ % 800 * 10))
number=0
for release in "$@"; do
    rm -f "$ROOT/out/matrix-$release.log".*
    say "$release: running, log in out/matrix-$release.log"
    screen=$((screen + 1))
    number=$((number + 1))
    if [ "${STACKLAM_WHOLE:-no}" = yes ]; then share=; else share=$number/$#; fi
    one_root "$release" "$screen" "$share" &
    RUNNING="$RUNNING $!"
done
# shellcheck disable=SC2086 # a list of numbers
trap 'kill $RUNNING 2>/dev/null || :; exit 130' INT TERM
wait

FAILED=
for release in "$@"; do
    log=$ROOT/out/matrix-$release.log
    say ""
    say "==== $release"
    status=$(cat "$log.status" 2>/dev/null || echo "unknown")
    rm -f "$log.status"
    if [ "$status" = 0 ]; then
        sed -n '/^== FreeCAD /,$p' "$log"
    else
        FAILED="$FAILED $release"
        say "FAILED on $release (status $status); the end of $log:"
        tail -n 60 "$log"
    fi
done
[ -z "$FAILED" ] || stop "
FAILED:$FAILED"
