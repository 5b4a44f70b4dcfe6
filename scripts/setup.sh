# Makes the project's own environment, .venv in the checkout, and keeps it up to date. Sourced by check and test:
#
#     source setup.sh EXTRA      EXTRA: nothing, or "dev" for the tools that the tests need
#
# Afterwards $root is the checkout and $venv the environment. Everything it says goes to stderr.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
venv=$root/.venv

say() { printf '%s\n' "$@" >&2; }

give_up() {
    say "" "Setting up has failed: $1" "${@:2}"
    exit 2
}

# The first Python that is new enough. A command can be there and still not run, so each one is tried.
find_python() {
    local name
    for name in python3 python3.14 python3.13 python3.12 python3.11 python; do
        if "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' </dev/null >/dev/null 2>&1; then
            command -v "$name"
            return
        fi
    done
    return 1
}

# What the environment was made from: when any of it changes, the environment is made anew.
stamp_of() {
    "$1" - "$root" "$2" <<'PYTHON'
import hashlib, pathlib, sys
root, extra = sys.argv[1:]
project = (pathlib.Path(root) / "pyproject.toml").read_bytes()
print(hashlib.sha256(project).hexdigest(), sys.version.split()[0], root, extra)
PYTHON
}

make_venv() {
    local python=$1
    "$python" -c 'import ensurepip, venv' >/dev/null 2>&1 || give_up \
        "this Python ($python) cannot make an environment: its module venv is missing." \
        "Install it (on Debian and Ubuntu: apt install python3-venv), then start again."
    rm -rf "$venv"
    "$python" -m venv "$venv" >&2 </dev/null || give_up \
        "$python could not make the folder .venv in $root." \
        "Look at the lines above: is the disk full, or the folder write-protected?"
}

install() {
    local extra=$1 log=$venv/install.log
    if ! "$venv/bin/python" -m pip install --quiet --disable-pip-version-check --no-input \
        --editable "$root${extra:+[$extra]}" >"$log" 2>&1 </dev/null; then
        grep -m 3 ERROR "$log" >&2 || true
        give_up "the packages that gridproof needs could not be installed." \
            "Is there a network connection? They come from the Python package index." \
            "All that was said is in .venv/install.log."
    fi
}

set_up() {
    local extra=$1 python plain full made
    python=$(find_python) || give_up \
        "there is no Python 3.11 or newer on this machine." \
        "Install one (on Debian and Ubuntu: apt install python3 python3-venv), then start again."
    plain=$(stamp_of "$python" "") full=$(stamp_of "$python" dev)
    made=$(cat "$venv/stamp" 2>/dev/null || true)
    if [ "$made" = "$full" ] || [ "$made" = "$(stamp_of "$python" "$extra")" ]; then
        return  # an environment with the tools for the tests serves for checking puzzles, too
    fi
    say "Setting up in .venv; the first time this takes a minute or two ..."
    [ "$made" = "$plain" ] || make_venv "$python"
    install "$extra"
    stamp_of "$python" "$extra" >"$venv/stamp"
}

set_up "${1:-}"
