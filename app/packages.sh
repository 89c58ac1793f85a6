# shellcheck shell=bash
# The Debian 12 packages that Washfast needs, and what start.sh and tests/run.sh do with them. Sourced by both, not run.

# To build and open the program. Qt Charts is not found by CMake without libqt6opengl6-dev; the SQLite driver, the time
# zones and a font are needed only when it runs, so no other package here brings them.
# shellcheck disable=SC2034  # read by the scripts that source this file
washfast_build_packages=(
    g++ cmake ninja-build
    qt6-base-dev qt6-charts-dev qt6-svg-dev libqt6opengl6-dev libqt6sql6-sqlite
    qt6-l10n-tools qt6-translations-l10n qt6-image-formats-plugins
    libsqlite3-dev libxlsxwriter-dev libeigen3-dev libboost-dev libnova-dev libexiv2-dev liblcms2-dev libzxing-dev
    fonts-dejavu-core tzdata
)

# To test it as well. ccache only makes the second run quicker.
# shellcheck disable=SC2034
washfast_test_packages=(
    "${washfast_build_packages[@]}"
    ccache libgtest-dev libgmock-dev clang-format codespell
    sqlite3 libreoffice-calc-nogui unzip poppler-utils
)

# How far a build is, for NINJA_STATUS: steps done of all, share, seconds.
# shellcheck disable=SC2034
washfast_progress='[%f/%t, %p, %e s] '

washfast_say() {
    printf '%s\n' "$*" >&2
}

# washfast_missing PACKAGE...: those of them that are not installed, one a line.
washfast_missing() {
    local package
    for package in "$@"; do
        if [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" != installed ]; then
            printf '%s\n' "$package"
        fi
    done
}

# washfast_apt WORD...: apt-get with the rights to install, without a question where nobody can answer one.
washfast_apt() {
    local -a command=(env DEBIAN_FRONTEND=noninteractive apt-get -q "$@")
    if [ "$(id -u)" -eq 0 ]; then
        "${command[@]}" </dev/null
    elif [ -t 0 ]; then
        sudo "${command[@]}"
    else
        sudo -n "${command[@]}"
    fi
}

# washfast_install PACKAGE...: installs the missing ones. With none missing it needs no rights and touches no network.
washfast_install() {
    if ! command -v dpkg-query >/dev/null; then
        washfast_say "This is not a Debian system, so nothing was installed. Washfast needs what Debian 12 calls:"
        washfast_say "    $*"
        return 0
    fi
    local -a missing
    mapfile -t missing < <(washfast_missing "$@")
    if [ "${#missing[@]}" -eq 0 ]; then
        return 0
    fi

    local reason="this needs the administrator's rights, and there is no sudo"
    if [ "$(id -u)" -eq 0 ] || command -v sudo >/dev/null; then
        washfast_say "Installing: ${missing[*]}"
        # One broken source among several must not stop the rest: whether it was enough shows in the next line.
        washfast_apt update >&2 || washfast_say "The package lists could not all be refreshed; trying with those there are."
        if washfast_apt install -y --no-install-recommends "${missing[@]}" >&2; then
            return 0
        fi
        reason="apt-get could not install them; its own message stands above"
        mapfile -t missing < <(washfast_missing "${missing[@]}")
        if [ "${#missing[@]}" -eq 0 ]; then
            washfast_say "apt-get complained, but everything that Washfast needs is there."
            return 0
        fi
    fi
    washfast_say "Missing packages: ${missing[*]}"
    washfast_say "They were not installed: $reason."
    washfast_say "As the administrator, run:"
    washfast_say "    apt-get update && apt-get install --no-install-recommends ${missing[*]}"
    return 1
}

# washfast_fresh SOURCE BUILD: drops a build folder that was made for another place (the project was moved or copied).
washfast_fresh() {
    local made_for
    if [ -f "$2/CMakeCache.txt" ]; then
        made_for=$(sed -n 's/^CMAKE_HOME_DIRECTORY:INTERNAL=//p' "$2/CMakeCache.txt")
        if [ "$made_for" != "$1" ]; then
            washfast_say "Starting $2 afresh: it was made for $made_for."
            rm -rf -- "$2"
        fi
    fi
}
