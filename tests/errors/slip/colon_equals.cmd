. "$(dirname "$0")/slip.sh"
line 'x := 1'
