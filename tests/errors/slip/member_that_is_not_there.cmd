. "$(dirname "$0")/slip.sh"
line 'local t = { a = charged } local x = t.b + charged'
