. "$(dirname "$0")/slip.sh"
line 'local step = 5 min'
