# Sourced by ./run and ./test: make .venv from a lock file, once.
#
# The stamp is written last and names the lock, the Python and the place, so that a set-up
# that was cut short is done again and a moved folder is noticed.

setup() {
    lock=$1
    python=${PYTHON:-python3}
    "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' || {
        echo "Wickwright needs Python 3.11 or later; '$python' is $("$python" --version 2>&1)." >&2
        echo "Install it, or name one: PYTHON=/path/to/python3.11 $0" >&2
        exit 2
    }
    stamp=.venv/ready-${lock%.lock}
    want="$(cksum <"$lock") $("$python" --version 2>&1) $PWD"
    [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$want" ] && return
    echo "Setting up .venv (half a minute the first time) ..." >&2
    [ -x .venv/bin/python ] && .venv/bin/python -c 1 2>/dev/null || "$python" -m venv --clear .venv
    [ -x .venv/bin/uv ] || .venv/bin/python -m pip install --quiet --disable-pip-version-check uv==0.13.9
    .venv/bin/uv pip install --quiet --python .venv/bin/python --require-hashes --compile-bytecode -r "$lock"
    site=$(.venv/bin/python -c 'import sysconfig; print(sysconfig.get_paths()["purelib"])')
    printf '%s/src\n' "$PWD" >"$site/wickwright-source.pth"
    printf '#!/bin/sh\nexec "%s/.venv/bin/python" -m wickwright "$@"\n' "$PWD" >.venv/bin/wickwright
    chmod +x .venv/bin/wickwright
    printf '%s' "$want" >"$stamp"
}
