. "$(dirname "$0")/slip.sh"
line 'goto done'
