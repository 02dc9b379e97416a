. "$(dirname "$0")/slip.sh"
line 'if charged > job.worked then charged = charged elif true then charged = charged end'
