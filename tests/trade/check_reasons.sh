#!/bin/sh
# The steps of lemel why, reworked by reasons.py.   check_reasons.sh PATH-OF-LEMEL
here=$(cd "$(dirname "$0")" && pwd)
for python in python3 /usr/bin/python3; do
    "$python" -c 'import pint' 2>/dev/null && exec "$python" "$here/reasons.py" "$1" "$here/../../examples/jobs"
done
echo "skipped: python3-pint is not installed"
