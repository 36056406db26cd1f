#!/usr/bin/env bash
# Writes the handbook and the references of C++ with C, and of Python, as HTML to build/reference; that of JavaScript is
# keysquare.d.ts as it stands. Status 1 when a public name has no comment or docstring, or a comment can't be
# understood; each one is named.
#
# usage: make_reference.sh [all|cpp|python|javascript] [OUTPUT]
#   KEYSQUARE_HEADERS   the headers to describe (default include/keysquare)
#   KEYSQUARE_TYPES     where the types of JavaScript are (default bindings/javascript)
#   PYTHON              a Python that has keysquare and what tests/requirements.txt lists (default: build/venv, python3)
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../../.."

here=examples/handbook/reference
what=${1:-all}
output=${2:-build/reference}
case $what in all | cpp | python | javascript) ;; *)
    sed -n 's/^# usage: /usage: /p' "${BASH_SOURCE[0]}" >&2
    exit 2
    ;;
esac
python=${PYTHON:-}
[ -n "$python" ] || { [ -x build/venv/bin/python ] && python=build/venv/bin/python; } || python=python3
types=${KEYSQUARE_TYPES:-bindings/javascript}
export KEYSQUARE_HEADERS=${KEYSQUARE_HEADERS:-include/keysquare}
export KEYSQUARE_CPP_REFERENCE=$output/cpp
KEYSQUARE_VERSION=$(sed -n 's/.* version = "\(.*\)";/\1/p' include/keysquare/version.hpp)
export KEYSQUARE_VERSION

cpp_reference() {
    command -v doxygen >/dev/null || {
        echo "Doxygen is missing. Debian: apt-get install doxygen" >&2
        return 1
    }
    rm -rf "$output/cpp"
    mkdir -p "$output/cpp"
    local status=0
    doxygen "$here/Doxyfile" || status=1
    "$python" "$here/check_cpp_reference.py" "$output/cpp/xml" "$KEYSQUARE_HEADERS" || status=1
    rm -rf "$output/cpp/xml"
    return $status
}

python_reference() {
    rm -rf "$output/python"
    "$python" "$here/python_reference.py" "$output/python"
}

status=0
wanted() { [ "$what" = all ] || [ "$what" = "$1" ]; }
if wanted cpp; then cpp_reference || status=1; fi
if wanted python; then python_reference || status=1; fi
if wanted javascript; then "$python" "$here/javascript_types.py" "$types"/*.d.ts || status=1; fi
if wanted all; then "$python" "$here/handbook_pages.py" "$output" || status=1; fi
if [ $status -ne 0 ]; then
    echo "The reference is not whole: see above." >&2
elif [ "$what" != javascript ]; then
    echo "written to $output"
fi
exit $status
