. "$(dirname "$0")/slip.sh"
line 'local t = { charged } local x = t[0] + charged'
