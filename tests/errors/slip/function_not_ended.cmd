. "$(dirname "$0")/slip.sh"
line 'local f = function (a) return a'
