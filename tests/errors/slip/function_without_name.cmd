. "$(dirname "$0")/slip.sh"
line 'function (a) return a end'
