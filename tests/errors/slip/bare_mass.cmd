. "$(dirname "$0")/slip.sh"
line 'local g = 29 g'
