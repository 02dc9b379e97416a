. "$(dirname "$0")/slip.sh"
line 'local fee = labour * 1,5'
