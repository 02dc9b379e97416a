. "$(dirname "$0")/slip.sh"
slip '1s/^/function f() return 1 end /'
