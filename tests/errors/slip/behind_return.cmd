. "$(dirname "$0")/slip.sh"
line 'return { charged = charged, labour = labour } local z = 1'
