. "$(dirname "$0")/slip.sh"
line 'if charged > job.worked && true then charged = charged end'
