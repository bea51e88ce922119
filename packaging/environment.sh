# Read by packaging/start and packaging/check; does nothing when run by itself.
# Makes .venv in the clone and sees to the system libraries Qt needs. Quick when nothing has changed.
# shellcheck shell=bash disable=SC2034  # the lists are used by those who read this

ROOT="$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)"
VENV="$ROOT/.venv"

# Found sufficient on a bare Debian 12. The names ending in t64 on newer systems are allowed for below.
OFFSCREEN_LIBRARIES=(libegl1 libgl1 libx11-6 libdbus-1-3 libfontconfig1 libfreetype6 libglib2.0-0 libxkbcommon0)
SCREEN_LIBRARIES=(libx11-xcb1 libxcb1 libxcb-cursor0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1 libxcb-randr0
    libxcb-render-util0 libxcb-render0 libxcb-shape0 libxcb-shm0 libxcb-sync1 libxcb-util1 libxcb-xfixes0
    libxcb-xkb1 libxkbcommon-x11-0)
TEST_PROGRAMS=(xvfb xauth xdotool imagemagick poppler-utils postgresql)

say() { printf '%s\n' "$*" >&2; }

stop() {
    say "$@"
    exit 1
}

has_screen() {
    [ -n "${DISPLAY:-}" ] || [ -n "${WAYLAND_DISPLAY:-}" ] || [ "$(uname)" = Darwin ]
}

# missing_packages NAME...: those of the Debian packages that are not installed.
missing_packages() {
    local installed name
    installed=" $(dpkg-query -W -f '${binary:Package} ${db:Status-Status}\n' 2>/dev/null |
        sed -n 's/^\([^ :]*\)[^ ]* installed$/\1/p' | tr '\n' ' ')"
    for name in "$@"; do
        case "$installed" in
        *" $name "* | *" ${name}t64 "*) ;;
        *) printf '%s ' "$name" ;;
        esac
    done
}

# see_to_packages NAME...: install what is missing where we may, else say how; never stops the run.
see_to_packages() {
    command -v dpkg-query >/dev/null || return 0 # not a Debian: nothing is known about its names
    local -a missing as_root=()
    read -r -a missing <<<"$(missing_packages "$@")" || true
    [ "${#missing[@]}" -gt 0 ] || return 0
    if [ "$(id -u)" -ne 0 ]; then
        if command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
            as_root=(sudo -n)
        else
            say "Some system packages are missing. Ask whoever looks after this machine to run:"
            say "    sudo apt-get update && sudo apt-get install --no-install-recommends ${missing[*]}"
            say "Going on without them for now."
            return 0
        fi
    fi
    say "Installing system packages: ${missing[*]}"
    if ! {
        "${as_root[@]}" apt-get update -qq &&
            "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
                apt-get install -y -qq --no-install-recommends "${missing[@]}"
    } </dev/null >&2; then
        say "apt-get could not install them. Going on; if the window does not open, that is why."
    fi
}

is_new_enough() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null
}

# find_python: print the Python to build with, Debian's own first.
find_python() {
    local name
    for name in python3 python3.13 python3.12 python3.11 python3.14; do
        if command -v "$name" >/dev/null && is_new_enough "$name"; then
            command -v "$name"
            return 0
        fi
    done
    return 1
}

# make_environment [EXTRA]: .venv with the program installed as editable, and the extra if named.
make_environment() {
    local extra="${1:-}" python version stamp mark mark_found
    if ! python="$(find_python)"; then
        see_to_packages python3 python3-venv
        python="$(find_python)" || stop "gametrace needs Python 3.11 or newer, with its venv module." \
            "On Debian 12, Ubuntu 24.04 or newer: sudo apt-get install python3 python3-venv"
    fi
    version="$("$python" -c 'import platform; print(platform.python_version())')"
    stamp="$version $ROOT $(cksum <"$ROOT/pyproject.toml")"
    mark="$VENV/made-for${extra:+-$extra}"
    if is_new_enough "$VENV/bin/python"; then
        # What was made for the checks also serves to start.
        for mark_found in "$mark" "$VENV/made-for-dev"; do
            [ "$(cat "$mark_found" 2>/dev/null)" != "$stamp" ] || return 0
        done
    fi
    if ! "$python" -c 'import venv, ensurepip' 2>/dev/null; then
        see_to_packages python3-venv "$(basename "$(readlink -f "$python")")-venv"
        "$python" -c 'import venv, ensurepip' 2>/dev/null || stop \
            "Python's venv module is missing. On Debian or Ubuntu: sudo apt-get install python3-venv"
    fi
    say "Setting up $VENV with Python $version (some minutes the first time) ..."
    # Its scripts hold full paths, so an environment made elsewhere or by another Python is made anew.
    if ! is_new_enough "$VENV/bin/python" ||
        { [ -e "$VENV/made-at" ] && [ "$(cat "$VENV/made-at")" != "$version $ROOT" ]; }; then
        rm -rf -- "$VENV"
    fi
    [ -x "$VENV/bin/python" ] || "$python" -m venv "$VENV" || stop "Could not make $VENV."
    printf '%s\n' "$version $ROOT" >"$VENV/made-at"
    PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_ROOT_USER_ACTION=ignore PIP_NO_INPUT=1 \
        "$VENV/bin/python" -m pip install --quiet --editable "$ROOT${extra:+[$extra]}" >&2 ||
        stop "pip could not fetch what gametrace needs. Is the network there? Run this again when it is."
    printf '%s\n' "$stamp" >"$mark"
}
