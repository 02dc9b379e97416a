. "$(dirname "$0")/slip.sh"
line 'charged'
