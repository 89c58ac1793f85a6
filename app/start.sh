#!/usr/bin/env bash
# Sets up what is missing, builds Washfast and opens a notebook:
#
#     bash app/start.sh [NOTEBOOK]
#
# Without a notebook it opens an invented example, written once to the person's data folder. What it installs comes from
# Debian 12 and only if it is missing; what it builds stays in build/app.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=app/packages.sh
. "$root/app/packages.sh"

if [ "$#" -gt 1 ] || [ "${1:-}" = --help ] || [ "${1:-}" = -h ]; then
    washfast_say "Usage: bash app/start.sh [NOTEBOOK]"
    if [ "$#" -gt 1 ]; then exit 2; else exit 0; fi
fi

packages=("${washfast_build_packages[@]}")
if [ -z "${DISPLAY:-}" ] && [ -n "${WAYLAND_DISPLAY:-}" ]; then
    packages+=(qt6-wayland)
fi
washfast_install "${packages[@]}"

build="$root/build/app"
program="$build/washfast"
washfast_fresh "$root" "$build"
if [ ! -f "$build/build.ninja" ]; then
    cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DWASHFAST_TESTS=OFF >&2
fi
NINJA_STATUS=$washfast_progress cmake --build "$build" --parallel "$(nproc)" --target washfast >&2

# The program writes the example aside and moves it into place, so that a half-written one is never taken for it.
notebook=${1:-}
if [ -z "$notebook" ]; then
    folder="${XDG_DATA_HOME:-$HOME/.local/share}/washfast"
    notebook="$folder/demo.washfast"
    if [ ! -e "$notebook" ]; then
        mkdir -p "$folder"
        "$program" demo "$notebook" >&2
    fi
fi

if [ -z "${DISPLAY:-}" ] && [ -z "${WAYLAND_DISPLAY:-}" ] && [ -z "${QT_QPA_PLATFORM:-}" ]; then
    washfast_say "Washfast is built, but there is no display to open its window on (neither DISPLAY nor WAYLAND_DISPLAY is set)."
    washfast_say "    program:  $program"
    washfast_say "    notebook: $notebook"
    washfast_say "Run this again from a desktop session. The command line needs no display: $program --help"
    exit 1
fi
exec "$program" "$notebook"
