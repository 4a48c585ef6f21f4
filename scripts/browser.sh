# Sourced by ./test: find Chromium, which the tests drive, or get it where that is ours to do.

browser() {
    for name in "${CHROMIUM:-}" chromium chromium-browser google-chrome; do
        [ -n "$name" ] && command -v "$name" >/dev/null 2>&1 && return
    done
    if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
        echo "Installing Chromium with apt-get, for the tests that drive the desk in a browser ..." >&2
        { apt-get update -q && DEBIAN_FRONTEND=noninteractive \
            apt-get install -q -y --no-install-recommends chromium; } >&2 && return
    fi
    echo "The tests drive the desk in Chromium, and it is not here: install it from your system's" >&2
    echo "packages (such as 'apt-get install chromium', as root), or name its program:" >&2
    echo "    CHROMIUM=/path/to/chromium ./test" >&2
    exit 2
}
