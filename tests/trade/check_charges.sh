#!/bin/sh
# The charges of the demo's jobs, solved again with GLPK by charges.py.   check_charges.sh PATH-OF-LEMEL
here=$(cd "$(dirname "$0")" && pwd)
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 0; }
exec python3 "$here/charges.py" "$1" "$here/../.."
