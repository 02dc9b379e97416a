. "$(dirname "$0")/slip.sh"
line 'if (charged > job.worked) { charged = job.worked }'
