# SPDX-License-Identifier: LGPL-2.1-or-later
# Sourced by the other tools (POSIX sh). Sets ROOT, PYTHON and FREECAD_PATH, and brings a Debian machine up to what is
# asked for: `setup_runtime` to plan, `setup_tests` to run every test. Installs only what is missing; says nothing
# unless there is something to do.

ROOT=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P)
PYTHON=$ROOT/.venv/bin/python
FREECAD_PATH=/usr/lib/freecad-python3/lib:/usr/share/freecad/Ext
SYSTEM_PYTHON=/usr/bin/python3
SETUP_LOG=$ROOT/out/setup.log
MISSING=

RUNTIME_PACKAGES="freecad python3-venv ca-certificates fonts-dejavu-core"
TEST_PACKAGES="xvfb xauth libgl1-mesa-dri poppler-utils occt-misc python3-scipy"

export LC_ALL=C.UTF-8 PYTHONUTF8=1 PYTHONDONTWRITEBYTECODE=1 PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_ROOT_USER_ACTION=ignore
unset PYTHONPATH PYTHONHOME VIRTUAL_ENV

say() { printf '%s\n' "$*"; }

stop() {
    printf '%s\n' "$*" >&2
    exit 1
}

# Run a command with its output in the log; show the end of it when the command fails.
quietly() {
    printf '\n$ %s\n' "$*" >>"$SETUP_LOG"
    "$@" >>"$SETUP_LOG" 2>&1 </dev/null 9>&- && return
    tail -n 25 "$SETUP_LOG" >&2
    stop "This failed: $*
The whole log: $SETUP_LOG"
}

# Run as root, through sudo for a user who may.
as_root() {
    if [ "$(id -u)" = 0 ]; then
        "$@"
    elif command -v sudo >/dev/null 2>&1; then
        sudo "$@"
    else
        stop "This needs root, and this user is neither root nor has sudo.${MISSING:+
As root, run: apt-get install --no-install-recommends$MISSING}"
    fi
}

is_installed() {
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

# install_packages NAME…: the Debian packages that are not there yet.
install_packages() {
    command -v apt-get >/dev/null 2>&1 || stop "This set-up is written for Debian 12 or newer (apt-get was not found)."
    MISSING=
    for package in "$@"; do
        is_installed "$package" || MISSING="$MISSING $package"
    done
    [ -n "$MISSING" ] || return 0
    say "Installing:$MISSING"
    [ "$(id -u)" = 0 ] || as_root true
    quietly as_root apt-get -q -o Acquire::Retries=3 -o DPkg::Lock::Timeout=300 update
    # shellcheck disable=SC2086 # a list of names
    quietly as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y --no-install-recommends \
        -o Acquire::Retries=3 -o DPkg::Lock::Timeout=300 install $MISSING
}

# Debian's FreeCAD leaves out two things that it works without, but not well: what draws SVG icons (with Qt 6 they are
# blue cubes, and the log fills with QPainter's complaints), and what talks to printers. Which ones hangs on the Qt that
# FreeCAD was built with.
qt_packages() {
    if is_installed python3-pyside6.qtcore; then
        echo "qt6-svg-plugins python3-pyside6.qtprintsupport"
    elif is_installed python3-pyside2.qtcore; then
        echo "libqt5svg5 python3-pyside2.qtprintsupport"
    fi
}

# An environment of FreeCAD's own Python, which sees FreeCAD's numpy and Qt.
make_environment() {
    version=$("$SYSTEM_PYTHON" -c 'import platform; print(platform.python_version())') ||
        stop "The system's Python, $SYSTEM_PYTHON, does not run."
    config=$ROOT/.venv/pyvenv.cfg
    if [ -x "$PYTHON" ] && grep -qx "include-system-site-packages = true" "$config" &&
        grep -qx "version = $version" "$config" && grep -qx "home = /usr/bin" "$config" &&
        [ -e "$ROOT/.venv/bin/pip" ]; then
        return 0
    fi
    say "Making a Python environment in $ROOT/.venv"
    quietly "$SYSTEM_PYTHON" -m venv --clear --system-site-packages "$ROOT/.venv"
}

# install_requirements NAME: tools/NAME.txt, unless this very list is installed already.
install_requirements() {
    list=$ROOT/tools/$1.txt
    stamp=$ROOT/.venv/$1.installed
    if [ -e "$stamp" ] && cmp -s "$list" "$stamp"; then
        return 0
    fi
    say "Installing Python packages ($1)"
    quietly "$PYTHON" -m pip install --no-deps --only-binary :all: -r "$list"
    cp "$list" "$stamp"
}

# One set-up at a time in one checkout.
locked() {
    mkdir -p "$ROOT/out" || stop "$ROOT cannot be written to: the set-up needs room for .venv and out there."
    (
        flock 9
        "$@"
    ) 9>"$ROOT/out/setup.lock" || exit 1
    # Qt warns where a login has not made this.
    if [ -z "${XDG_RUNTIME_DIR:-}" ]; then
        mkdir -p -m 700 "$ROOT/out/run"
        export XDG_RUNTIME_DIR="$ROOT/out/run"
    fi
}

# The lock must not be held by anything that outlives the set-up.
_runtime() {
    : >"$SETUP_LOG"
    # shellcheck disable=SC2086 # a list of names
    install_packages $RUNTIME_PACKAGES $1
    # shellcheck disable=SC2046 # a list of names
    install_packages $(qt_packages)
    make_environment
    install_requirements requirements
}

_tests() {
    _runtime "$TEST_PACKAGES"
    install_requirements requirements-test
}

setup_runtime() { locked _runtime ""; }
setup_tests() { locked _tests; }

freecad_version() {
    PYTHONPATH=$FREECAD_PATH "$PYTHON" -c \
        'import platform, FreeCAD; print("FreeCAD", ".".join(FreeCAD.Version()[:3]), "Python", platform.python_version())' ||
        stop "FreeCAD is installed, but its Python module does not load from $FREECAD_PATH."
}
