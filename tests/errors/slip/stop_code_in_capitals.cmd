. "$(dirname "$0")/slip.sh"
line 'sheet:stop("Too-Long", "Too long for one day")'
