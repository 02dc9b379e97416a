. "$(dirname "$0")/slip.sh"
line 'local n = 1 n++'
