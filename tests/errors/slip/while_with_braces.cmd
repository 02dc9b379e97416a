. "$(dirname "$0")/slip.sh"
line 'while charged > job.worked { charged = job.worked }'
