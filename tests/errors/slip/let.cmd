. "$(dirname "$0")/slip.sh"
line 'let x = 1'
