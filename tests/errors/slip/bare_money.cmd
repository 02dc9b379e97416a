. "$(dirname "$0")/slip.sh"
line 'local g = labour + 5 USD'
