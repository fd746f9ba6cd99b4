#!/bin/sh
# Starts turbomath from this folder. It needs Python {either}, 64 bit, and no network.
here=$(cd "$(dirname "$0")" && pwd) || exit 1
for python in $(printf 'python%s ' {pythons}) python3 python; do
    if "$python" -c 'import sys; sys.exit("%d.%d" % sys.version_info[:2] not in sys.argv[1:])' {pythons} 2>/dev/null; then
        exec "$python" "$here/start.py" "$@"
    fi
done
echo "This needs Python {either}, 64 bit. Install it, then start this again." >&2
exit 1
