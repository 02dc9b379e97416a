. "$(dirname "$0")/slip.sh"
line 'sheet:stop("too-long", "Too long", { "labr" })'
