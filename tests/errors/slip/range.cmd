. "$(dirname "$0")/slip.sh"
line 'for i in 1..3 do charged = charged end'
