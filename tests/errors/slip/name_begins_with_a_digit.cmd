. "$(dirname "$0")/slip.sh"
line 'local 2x = 1'
