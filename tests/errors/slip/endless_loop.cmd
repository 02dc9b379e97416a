. "$(dirname "$0")/slip.sh"
line 'while true do end'
