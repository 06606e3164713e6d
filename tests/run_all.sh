#!/usr/bin/env bash
# Sets up everything the tests need, from a bare Debian with python3 on, and runs them. Safe to run again.
#   bash tests/run_all.sh [arguments for pytest]            the quick tier: every mechanism, in small numbers
#   bash tests/run_all.sh thorough [arguments for pytest]   everything, drawn by the day; WBGEN_SEED=… draws the same again
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

WBGEN_TIER=quick
if [ "${1:-}" = thorough ]; then
    WBGEN_TIER=thorough
    shift
fi
export WBGEN_TIER

PACKAGES=(libreoffice-calc python3-uno faketime poppler-utils fonts-liberation fonts-dejavu)

fail() { echo "run_all: $*" >&2; exit 1; }

command -v python3 >/dev/null || fail "python3 is missing: install Python 3.11 or later"
python3 -c 'import sys; sys.exit(sys.version_info < (3, 11))' || fail "Python 3.11 or later is needed, this is $(python3 -V)"

# --- Debian packages, only those that are missing -----------------------------------------------------------------

installed() { [ "$(dpkg-query --show --showformat='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]; }

missing=()
if command -v dpkg-query >/dev/null; then
    for package in "${PACKAGES[@]}"; do installed "$package" || missing+=("$package"); done
    python3 -c 'import ensurepip, venv' 2>/dev/null || missing+=(python3-venv)
else
    for program in soffice pdftoppm faketime; do
        command -v "$program" >/dev/null || fail "$program is missing, and this is no Debian: install it by hand"
    done
fi

if [ "${#missing[@]}" -gt 0 ]; then
    root=()
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || fail "as root, run: apt-get install ${missing[*]}"
        root=(sudo)
    fi
    scratch=$(mktemp -d)
    trap 'rm -rf "$scratch"' EXIT
    chmod 1777 "$scratch" # apt fetches as a user of its own, who must be able to write there
    apt() {
        "${root[@]}" env DEBIAN_FRONTEND=noninteractive TMPDIR="$scratch" apt-get --quiet --yes \
            -o Acquire::Retries=3 -o DPkg::Lock::Timeout=300 -o APT::Keep-Downloaded-Packages=false "$@" </dev/null
    }
    for try in 1 2 3; do
        if apt -o APT::Update::Error-Mode=any update; then break; fi
        [ "$try" -lt 3 ] || fail "apt-get update failed three times"
        sleep $((try * 5))
    done
    apt install --no-install-recommends "${missing[@]}" || fail "apt-get could not install ${missing[*]}"
    "${root[@]}" rm -rf "$scratch"
    trap - EXIT
fi

# --- A virtual environment of the checkout's own ------------------------------------------------------------------

if ! .venv/bin/python -c 'import pip' 2>/dev/null; then
    rm -rf .venv
    python3 -m venv .venv
fi
.venv/bin/python -m pip install --quiet --disable-pip-version-check --no-input --retries 5 --timeout 60 \
    --editable '.[dev]'

# --- The checks, quick ones first ---------------------------------------------------------------------------------

unset PYTHONDONTWRITEBYTECODE # the commands that tests run are compiled once, not each time
WBGEN_STARTED=$(date +%s)
export WBGEN_STARTED
set -x
.venv/bin/python -m ruff check .
.venv/bin/python -m ruff format --check .
.venv/bin/python -m mypy
.venv/bin/python -c 'from importlinter.cli import lint_imports_command; lint_imports_command()' --no-logo
exec .venv/bin/python -m pytest --numprocesses 2 --dist worksteal "$@"
