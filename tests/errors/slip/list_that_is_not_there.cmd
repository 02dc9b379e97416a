. "$(dirname "$0")/slip.sh"
line 'for _, p in ipairs(job.pieces) do sheet.client:line("Piece", p) end'
