. "$(dirname "$0")/slip.sh"
line 'charged += Q "5 min"'
