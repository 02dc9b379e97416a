. "$(dirname "$0")/slip.sh"
line 'local t = { 1; 2 } )'
