. "$(dirname "$0")/slip.sh"
line 'local n = null'
