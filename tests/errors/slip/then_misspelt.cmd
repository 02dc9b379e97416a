. "$(dirname "$0")/slip.sh"
line 'if charged == nil them charged = charged end'
