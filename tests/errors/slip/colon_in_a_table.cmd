. "$(dirname "$0")/slip.sh"
line 'local t = { a: 1 }'
