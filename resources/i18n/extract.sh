#!/usr/bin/env bash
# Brings the texts of the program into a file of a language, and keeps the translations that are there:
#
#     bash resources/i18n/extract.sh OUT.ts [WASHFAST_TEXTS]
#
# A file that ends in _en.ts takes the texts with a number only: English needs nothing but its plurals. WASHFAST_TEXTS is
# the program of that name in a build folder; without it the newest in build/ is taken. A new language starts with
# resources/i18n/washfast_LANGUAGE.ts; the next build takes it in by itself.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd -P)

if [ "$#" -lt 1 ] || [ "$#" -gt 2 ]; then
    echo "Usage: bash resources/i18n/extract.sh OUT.ts [WASHFAST_TEXTS]" >&2
    exit 2
fi
out=$(realpath "$1")
texts=${2:-$(find "$root/build" -name washfast_texts -type f -printf '%T@ %p\n' 2>/dev/null | sort -n | tail -1 | cut -d' ' -f2-)}
if [ -z "$texts" ] || [ ! -x "$texts" ]; then
    echo "Build the program washfast_texts first: ninja -C build/FOLDER washfast_texts" >&2
    exit 1
fi
lupdate=$(PATH="$PATH:/usr/lib/qt6/bin" command -v lupdate) || {
    echo "lupdate is missing. It is in the package qt6-l10n-tools." >&2
    exit 1
}

folder=$(mktemp -d)
trap 'rm -rf -- "$folder"' EXIT
"$texts" "$folder/texts.cpp"
options=(-locations none -source-language en)
case "$out" in
*_en.ts) options+=(-pluralonly -no-obsolete) ;;
esac
cd "$root"
said=$("$lupdate" "${options[@]}" -I . core ui app "$folder/texts.cpp" -ts "$out" 2>&1) || {
    printf '%s\n' "$said" >&2
    exit 1
}
# What lupdate complains of is a text that it could not place: no translation of it would show.
if grep -v -e '^Scanning ' -e '^Updating ' -e '^ *Found ' -e '^ *Removed ' -e '^ *Kept ' -e '^ *Same-text heuristic ' -e '^Stripping ' <<<"$said" | grep -q .; then
    printf '%s\n' "$said" >&2
    exit 1
fi
