#!/usr/bin/env bash
# Something of every binding file under valgrind (tests/python/leak_rounds.py): fails on a definite leak, and on an invalid
# read, write or free, with a frame in our module. What the interpreter and other modules do is not counted.
#     tests/leaks.sh [NAME...]    the rounds of these binding files; all of them without any
# The interpreter is build/venv/bin/python, or what PYTHON names, with keysquare installed. Frames have names when the module
# was built with them: pip install -C cmake.build-type=RelWithDebInfo ./bindings/python. The last line counts.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
python=${PYTHON:-$root/build/venv/bin/python}
report=$root/build/leaks.xml
mkdir -p "$root/build"
# Objects that Python's or pybind11's own lists know are never lost to valgrind, so Python's count of blocks must not grow.
if ! "$python" "$root/tests/python/leak_rounds.py" --count "$@"; then
    echo "0 passed, 1 failed, 0 skipped"
    exit 1
fi
if ! command -v valgrind >/dev/null; then
    echo "the rest is skipped: needs valgrind"
    echo "1 passed, 0 failed, 1 skipped"
    exit 0
fi

status=0
# Python's own allocator hides blocks from valgrind; --fair-sched lets the scan's threads come in turn.
PYTHONMALLOC=malloc PYTHONHASHSEED=0 valgrind --quiet --tool=memcheck --leak-check=full --show-leak-kinds=definite \
    --errors-for-leak-kinds=definite --undef-value-errors=no --num-callers=60 --fair-sched=yes \
    --suppressions="$root/tests/valgrind_python.supp" --xml=yes --xml-file="$report" \
    "$python" "$root/tests/python/leak_rounds.py" "$@" || status=$?
if [ "$status" -ne 0 ]; then
    echo "the rounds themselves failed, status $status"
    echo "0 passed, 1 failed, 0 skipped"
    exit 1
fi
"$python" - "$report" <<'PYTHON'
import sys
from xml.etree import ElementTree

# Once in a process, for as long as it lives: what the import of the module allocates.
AT_IMPORT = ("PyModule_ExecDef", "PyModule_FromDefAndSpec", "PyModule_FromDefAndSpec2", "_PyImport_LoadDynamicModuleWithSpec")

found = once = others = 0
for error in ElementTree.parse(sys.argv[1]).getroot().iter("error"):
    frames = list(error.iter("frame"))
    if not any("keysquare/_core" in frame.findtext("obj", "") for frame in frames):
        others += 1
        continue
    leaks = error.findtext("kind", "").startswith("Leak")
    if leaks and any(frame.findtext("fn") in AT_IMPORT for frame in frames):
        once += 1
        continue
    found += 1
    print(error.findtext("kind"), error.findtext("what") or error.findtext("xwhat/text"))
    for frame in frames[:30]:
        place = ":".join(filter(None, (frame.findtext("file"), frame.findtext("line")))) or frame.findtext("obj")
        print("   ", frame.findtext("fn") or frame.findtext("ip"), place)
print(f"{found} of our module; not counted: {once} at its import, {others} of the interpreter and other modules")
print(f"{1 if found else 2} passed, {found} failed, 0 skipped")
sys.exit(found > 0)
PYTHON
