. "$(dirname "$0")/slip.sh"
line 'def f(a): return a'
