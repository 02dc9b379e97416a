. "$(dirname "$0")/slip.sh"
line 'sheet:stop("Too long for one day")'
