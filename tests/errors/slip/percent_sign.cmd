. "$(dirname "$0")/slip.sh"
line 'local more = labour + 5%'
