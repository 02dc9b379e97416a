. "$(dirname "$0")/slip.sh"
slip '17s/job.worked:/(job.worked + "5 min"):/'
