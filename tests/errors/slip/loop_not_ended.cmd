. "$(dirname "$0")/slip.sh"
line 'for i = 1, 3 do charged = charged'
