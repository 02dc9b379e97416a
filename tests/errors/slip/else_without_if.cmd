. "$(dirname "$0")/slip.sh"
line 'else x = 1 end'
