# The piece weighs more than it did as cast: it was weighed with its stone.
. "$(dirname "$0")/remake.sh"
asks finished-heavy "$examples/jobs/red-ring.json" record="[$(weighed 0 'bangle' '14.40 g'), { \"at\": \"2026-11-27T16:00\", \"what\": \"raw casting\", \"mass\": \"8.10 g\" }, { \"at\": \"2026-11-28T10:00\", \"what\": \"finished\", \"mass\": \"8.31 g\" }]"
