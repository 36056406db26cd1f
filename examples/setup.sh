# Sourced by quickstart.sh, tests/run.sh and bench/run.sh: gets the machine ready to build the project.
# Everything that is made goes into build/: the virtual environment build/venv, and the output of each step in build/logs.
# A script that sources this file sets `steps` to the number of steps that it announces with `step`.

set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/build
venv=$build/venv
logs=$build/logs
jobs=$(nproc 2>/dev/null || echo 2)
mkdir -p "$logs"
cd "$root"
export PATH="$venv/bin:$PATH" PIP_DISABLE_PIP_VERSION_CHECK=1

step_number=0
step() {
    step_number=$((step_number + 1))
    printf '[%d/%d] %s\n' "$step_number" "$steps" "$1"
}

note() { printf '      %s\n' "$1"; }

die() {
    printf '\n%s\n' "$1" >&2
    exit 1
}

# On a terminal, shows the last line of a running command's output in place.
show_latest() {
    if [ -t 1 ]; then
        while IFS= read -r line; do printf '\r\033[K      %.90s' "$line"; done
        printf '\r\033[K'
    else
        cat >/dev/null
    fi
}

# logged NAME COMMAND...: runs the command with its output in build/logs/NAME.log; shows the end of it on failure.
logged() {
    local log=$logs/$1.log started=$SECONDS status=0
    shift
    "$@" </dev/null 2>&1 | tee "$log" | show_latest || status=$?
    if [ "$status" -ne 0 ]; then
        printf -- '----- the last lines of %s\n' "$log"
        tail -n 60 "$log"
        printf -- '-----\n'
    elif [ $((SECONDS - started)) -ge 2 ]; then
        note "done in $((SECONDS - started)) s"
    fi
    return "$status"
}

# changed NAME PATH...: whether the files differ from those at the last `mark NAME PATH...`.
digest() { find "$@" -type f ! -name '*.pyc' -print0 | LC_ALL=C sort -z | xargs -0 sha256sum | sha256sum; }
changed() { [ "$(cat "$venv/stamps/$1" 2>/dev/null)" != "$(digest "${@:2}")" ]; }
mark() { mkdir -p "$venv/stamps" && digest "${@:2}" >"$venv/stamps/$1"; }

at_least() { [ "$(printf '%s\n%s\n' "$1" "$2" | sort -V | head -n 1)" = "$1" ]; }
recent_cmake() { at_least 3.25 "$(cmake --version 2>/dev/null | sed -n '1s/[^0-9]*//p')"; }
preprocesses() { printf '#include <%s>\n' "$@" | "${CXX:-c++}" -std=c++20 -x c++ -E -; }

# A Python that can make virtual environments and compile extension modules. The first one on the PATH need not be the
# system's, and the system's may lack its parts.
find_python() {
    local candidate
    for candidate in python3 /usr/bin/python3; do
        if "$candidate" - 2>/dev/null <<'PYTHON'
import ensurepip, os, sys, sysconfig, venv
headers = os.path.join(sysconfig.get_path("include"), "Python.h")
sys.exit(not (sys.version_info >= (3, 10) and os.path.exists(headers)))
PYTHON
        then
            command -v "$candidate"
            return
        fi
    done
    return 1
}

# need PACKAGE COMMAND...: notes the Debian package as missing when the command fails.
missing=()
need() {
    "${@:2}" >/dev/null 2>&1 || missing+=("$1")
}

# prepare_machine: installs what the build needs and the machine lacks; extra needs are noted with `need` before.
prepare_machine() {
    need g++ preprocesses concepts ranges
    need zlib1g-dev preprocesses zlib.h
    need libbz2-dev preprocesses bzlib.h
    need libzstd-dev preprocesses zstd.h
    need cmake cmake --version
    need ninja-build ninja --version
    need "python3 python3-venv python3-dev" find_python
    if [ ${#missing[@]} -eq 0 ]; then
        note "everything needed is here"
        return
    fi
    local sudo=() packages
    read -ra packages <<<"${missing[*]}"
    command -v apt-get >/dev/null ||
        die "This machine lacks what the Debian packages ${packages[*]} hold, and has no apt-get. Install these by its own package manager, then run this again."
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || die "Some packages are missing. Run as root: apt-get install ${packages[*]}"
        sudo=(sudo)
    fi
    note "installing ${packages[*]}"
    logged apt-update "${sudo[@]}" apt-get update ||
        die "apt-get could not fetch its lists: check the network and the package sources, then run this again."
    logged apt-install "${sudo[@]}" env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y --no-install-recommends "${packages[@]}" ||
        die "apt-get could not install ${packages[*]}: see the lines above, then run this again."
}

# prepare_python [REQUIREMENTS_FILE]: makes build/venv and installs what the package needs, for its build and to run, and the
# file's packages.
prepare_python() {
    if ! "$venv/bin/python" -c 'import pip' 2>/dev/null; then
        local python
        python=$(find_python) || die "No Python 3.10 or newer with its venv module and headers was found. Install python3, python3-venv and python3-dev, then run this again."
        logged venv "$python" -m venv --clear "$venv" ||
            die "The virtual environment $venv could not be made: see the lines above."
    fi
    # The package is built without pip's isolation and installed without its dependencies, so that it is rebuilt from what
    # is there, quickly and offline.
    local wanted
    wanted="pip>=23.1 $(sed -n 's/^\(requires\|dependencies\) = \[\(.*\)\]/\2/p' bindings/python/pyproject.toml | tr -d '",' | tr '\n' ' ')"
    recent_cmake || wanted="$wanted cmake>=3.25"
    # shellcheck disable=SC2086  # a list of words
    if changed build-requirements bindings/python/pyproject.toml || ! recent_cmake; then
        logged pip-build-requirements python -m pip install $wanted ||
            die "pip could not install $wanted: check the network, then run this again."
        mark build-requirements bindings/python/pyproject.toml
    fi
    if [ $# -gt 0 ] && changed requirements "$1"; then
        logged pip-requirements python -m pip install -r "$1" ||
            die "pip could not install what $1 lists: check the network, then run this again."
        mark requirements "$1"
    fi
}

# install_package: builds the Python package keysquare and installs it into build/venv. Status 1 when that fails.
package_sources=(CMakeLists.txt include src bindings/python)
install_package() {
    if ! changed package "${package_sources[@]}"; then
        note "unchanged since the last build"
        return
    fi
    CMAKE_BUILD_PARALLEL_LEVEL=$jobs logged package python -m pip install --no-build-isolation --no-deps \
        --force-reinstall -C build-dir="$build/python" ./bindings/python || return 1
    mark package "${package_sources[@]}"
}

# use_open_data: lets KEYSQUARE_OPEN_DATA name the data folder beside the project where the caller did not set it.
use_open_data() {
    if [ -z "${KEYSQUARE_OPEN_DATA:-}" ] && [ -d ../shared/data ]; then
        KEYSQUARE_OPEN_DATA=$(cd ../shared/data && pwd)
        export KEYSQUARE_OPEN_DATA
    fi
    [ -d "${KEYSQUARE_OPEN_DATA:-}" ] || note "KEYSQUARE_OPEN_DATA names no folder: what needs open data is skipped"
}
