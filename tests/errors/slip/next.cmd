. "$(dirname "$0")/slip.sh"
line 'local k = next({})'
