. "$(dirname "$0")/slip.sh"
line 'local x = 5.5.5'
