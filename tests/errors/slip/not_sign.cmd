. "$(dirname "$0")/slip.sh"
line 'if !charged then charged = charged end'
