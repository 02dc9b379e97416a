#!/bin/sh
# The first hour of a new studio, key by key: first_hour.sh PATH-OF-LEMEL. See first_hour.py, which needs a Python with pty.
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 0; }
exec python3 "$(dirname "$0")/first_hour.py" "$1"
