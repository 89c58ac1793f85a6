#!/usr/bin/env bash
# Installs what is missing, builds Washfast with its tests and runs them all:
#
#     bash tests/run.sh [--filter REGEX] [--sanitize] [--tidy]
#
# --filter   only the tests whose name matches
# --sanitize builds with the address and undefined-behaviour sanitizers, in build/sanitize (it takes several times as long)
# --tidy     also runs clang-tidy on the source files changed since the last commit (slow: some ten seconds a file)
#
# The exit status is that of ctest. Everything is built in build/tests, or build/sanitize.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=app/packages.sh
. "$root/app/packages.sh"

usage() {
    washfast_say "Usage: bash tests/run.sh [--filter REGEX] [--sanitize] [--tidy]"
    exit "$1"
}

filter=.
tidy=no
sanitize=OFF
place=tests
while [ "$#" -gt 0 ]; do
    case "$1" in
    --filter)
        [ "$#" -ge 2 ] || usage 2
        filter=$2
        shift 2
        ;;
    --sanitize)
        sanitize=ON
        place=sanitize
        shift
        ;;
    --tidy)
        tidy=yes
        shift
        ;;
    --help | -h) usage 0 ;;
    *) usage 2 ;;
    esac
done

packages=("${washfast_test_packages[@]}")
if [ "$tidy" = yes ]; then
    packages+=(clang-tidy git)
fi
washfast_install "${packages[@]}"

# From here on the same everywhere: nobody to ask, and texts and sorting as in the C locale.
exec </dev/null
export LC_ALL=C.UTF-8
build="$root/build/$place"
washfast_fresh "$root" "$build"
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DWASHFAST_TESTS=ON -DWASHFAST_WERROR=ON \
    -DWASHFAST_SANITIZE=$sanitize
NINJA_STATUS=$washfast_progress ninja -C "$build" -j"$(nproc)"

if [ "$tidy" = yes ]; then
    cd "$root"
    mapfile -t changed < <(git diff --name-only --diff-filter=d HEAD -- '*.cpp')
    if [ "${#changed[@]}" -gt 0 ]; then
        clang-tidy -p "$build" --quiet "${changed[@]}"
    fi
fi

exec ctest --test-dir "$build" --output-on-failure --no-tests=error -j2 -R "$filter"
