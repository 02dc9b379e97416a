. "$(dirname "$0")/slip.sh"
line 'local x = $5'
