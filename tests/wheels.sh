#!/usr/bin/env bash
# Makes the source distribution, and from it alone, in an empty folder, a wheel for every Python from 3.10 to 3.13 that is
# found (pythonX.Y on the PATH, versions of pyenv). Each is installed in a clean virtual environment and used there. The last
# line counts. Pythons that are missing are skipped. Arguments: the versions to try, "3.11 3.12"; all of them without any.
# Needs the network where pip does.
set -uo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
work=$root/build/wheels
versions=("$@")
[ $# -gt 0 ] || versions=(3.10 3.11 3.12 3.13)
passed=0 failed=0 skipped=0
export PIP_DISABLE_PIP_VERSION_CHECK=1

# The C++ library is the same for all of them: ccache compiles it once. Paths count from the folder of each build.
export CCACHE_BASEDIR=$work CCACHE_NOHASHDIR=1
if command -v ccache >/dev/null; then export CMAKE_CXX_COMPILER_LAUNCHER=ccache; fi

says() { printf '      %s\n' "$1"; }

check() { # NAME COMMAND...
    local name=$1
    shift
    if "$@" </dev/null >"$work/$name.log" 2>&1; then
        passed=$((passed + 1))
        says "$name: passed"
    else
        failed=$((failed + 1))
        says "$name: FAILED"
        tail -n 40 "$work/$name.log"
        return 1
    fi
}

# find_python VERSION: one that can make virtual environments and has its headers.
find_python() {
    local candidate
    for candidate in "python$1" "${PYENV_ROOT:-$HOME/.pyenv}"/versions/"$1".*/bin/python "/usr/bin/python$1"; do
        if "$candidate" - "$1" 2>/dev/null <<'PYTHON'
import ensurepip, os, sys, sysconfig, venv
headers = os.path.join(sysconfig.get_path("include"), "Python.h")
sys.exit(not (sys.argv[1] == "%d.%d" % sys.version_info[:2] and os.path.exists(headers)))
PYTHON
        then
            command -v "$candidate"
            return
        fi
    done
    return 1
}

make_sdist() {
    cd "$root/bindings/python" && "$1" -c "
import sys
from scikit_build_core.build import build_sdist
print(build_sdist(sys.argv[1]))" "$work/dist"
}

# The files that a build needs, and nothing of this machine.
look_into_sdist() {
    local names lacking=0 name
    names=$(tar tzf "$1" | sed 's,^[^/]*/,,')
    for name in PKG-INFO pyproject.toml README.md CMakeLists.txt keysquare/py.typed keysquare/_core.pyi library/LICENSE \
        library/CMakeLists.txt $(cd "$root" && find include src -type f | sed 's,^,library/,') \
        $(cd "$root/bindings/python" && find src keysquare -type f ! -path '*/__pycache__/*'); do
        grep -qxF "$name" <<<"$names" || { echo "lacks $name" && lacking=1; }
    done
    ! grep -E '\.(so|pyc|o)$|__pycache__|(^|/)(build|\.git)/' <<<"$names" && [ "$lacking" -eq 0 ]
}

# Nothing but the unpacked source distribution is in the folder; the wheel has the licence and no file of the sources.
make_wheel() { # PYTHON VERSION
    local here=$work/$2
    rm -rf "$here" && mkdir -p "$here/source" "$here/dist" &&
        tar xzf "$work"/dist/*.tar.gz -C "$here/source" --strip-components 1 &&
        "$1" -m venv "$here/tools" &&
        "$here/tools/bin/python" -m pip install -q build &&
        cd "$here/source" &&
        CMAKE_BUILD_PARALLEL_LEVEL=${CMAKE_BUILD_PARALLEL_LEVEL:-$(nproc)} "$here/tools/bin/python" -m build --wheel --outdir "$here/dist" \
            -C build-dir="$here/objects" . &&
        "$here/tools/bin/python" - "$here"/dist/*.whl <<'PYTHON'
import sys, zipfile
names = zipfile.ZipFile(sys.argv[1]).namelist()
assert any(name.startswith("keysquare/_core") and name.endswith((".so", ".pyd")) for name in names), names
assert "keysquare/py.typed" in names and "keysquare/_core.pyi" in names
assert any(name.endswith("licenses/LICENSE") for name in names), names
assert all(name.startswith(("keysquare/", "keysquare-")) and not name.endswith((".cpp", ".hpp")) for name in names), names
PYTHON
}

# Installed into a clean environment and used there, far from the sources, without anything of the user's (-I).
use_wheel() { # PYTHON VERSION
    local here=$work/$2
    "$1" -m venv --clear "$here/clean" &&
        "$here/clean/bin/python" -m pip install -q "$here"/dist/*.whl pyarrow &&
        cd "$here/dist" &&
        "$here/clean/bin/python" -I - "$root/examples/data/club.pgn" <<'PYTHON'
import sys, tempfile
from pathlib import Path
import keysquare as ks

site = Path(sys.prefix).resolve()
assert site in Path(ks.__file__).resolve().parents, ks.__file__
assert ks.perft(ks.Position(), 4) == 197_281
games = list(ks.read_games(sys.argv[1]))
position = ks.Position("3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1")
found = ks.findings(position)
assert found and all(str(finding) for finding in found)
with tempfile.TemporaryDirectory() as folder:
    study = ks.Study("Wheel").ask(position, "Who has too much to do?", answer=found[0]).add(games[0])
    page = study.save(Path(folder) / "page.html").read_text("utf-8")
    assert page.count("<svg") >= 2 and "</html>" in page
    for suffix in ("", ".gz", ".bz2", ".zst"):
        path = Path(folder) / f"games.pgn{suffix}"
        assert ks.write_games(games, path) == len(list(ks.read_games(path))) == len(games)
import pyarrow
table = pyarrow.table(ks.features(games[0].positions()))
assert table.num_rows == len(games[0].positions()) and table.num_columns == len(ks.feature_schema().names)
assert pyarrow.table(ks.scan(sys.argv[1], features=["legal_moves"], progress=False)).num_rows > 100
try:
    ks.Position("x")
except ks.InputError as error:
    assert error.reason
else:
    raise AssertionError("a bad FEN was read")
print(sys.version, ks.__version__)
PYTHON
}

mkdir -p "$work"
rm -rf "$work/dist"
maker=
for version in 3.11 3.12 3.13 3.10; do maker=${maker:-$(find_python "$version")}; done
if [ -z "$maker" ]; then
    says "no Python from 3.10 to 3.13 with venv and headers was found"
    printf '0 passed, 0 failed, %d skipped\n' "$((${#versions[@]} + 2))"
    exit 0
fi

prepare_maker() { "$maker" -m venv --clear "$work/maker" && "$work/maker/bin/python" -m pip install -q 'scikit-build-core>=1.0'; }
if prepare_maker >"$work/maker.log" 2>&1 && check sdist make_sdist "$work/maker/bin/python" &&
    check sdist_contents look_into_sdist "$work"/dist/*.tar.gz; then
    for version in "${versions[@]}"; do
        if ! python=$(find_python "$version"); then
            skipped=$((skipped + 1))
            says "Python $version: missing, or without venv and headers"
        elif check "wheel_$version" make_wheel "$python" "$version"; then
            check "smoke_$version" use_wheel "$python" "$version" || true
        fi
    done
elif [ $failed -eq 0 ]; then
    failed=1
    tail -n 20 "$work/maker.log"
fi
printf '%d passed, %d failed, %d skipped\n' $passed $failed $skipped
[ $failed -eq 0 ] && [ $passed -gt 0 ]
