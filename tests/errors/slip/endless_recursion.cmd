. "$(dirname "$0")/slip.sh"
line 'local function f() return 1 + f() end f()'
