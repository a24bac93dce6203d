#!/bin/sh
# Double-click on macOS: finds Python 3.11 or newer and starts tapeline.
cd "$(dirname "$0")" || exit 1

wait_and_stop() {
    echo
    echo "$1"
    echo "Press Return to close this window."
    read -r _
    exit 1
}

is_new_enough() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1
}

# Without the command line tools /usr/bin/python3 opens a dialogue, so it is tried last.
for python in python3.14 python3.13 python3.12 python3.11 \
    /usr/local/bin/python3 /opt/homebrew/bin/python3 \
    /Library/Frameworks/Python.framework/Versions/Current/bin/python3 python3; do
    if command -v "$python" >/dev/null 2>&1 && is_new_enough "$python"; then
        "$python" run.py "$@"
        code=$?
        # 130 is Control-C: she closed it herself.
        if [ "$code" -eq 0 ] || [ "$code" -eq 130 ]; then exit 0; fi
        wait_and_stop "tapeline stopped with code $code; the lines above say why."
    fi
done
wait_and_stop "No Python 3.11 or newer was found. Install it from python.org, then double-click again."
