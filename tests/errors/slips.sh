#!/bin/sh
# Of the beginners' slips (slip/*.cmd) how many are reported with a line, a cause and a fix, counted in what is stored for each:
# the complaint names the recipe's file and a line, and there is a hint below it; of a slip in a proof the line is that of the proof, and
# what was worked and what was expected say what to change. slips.sh prints the others; fewer than 170 of 177 fail.
cd "$(dirname "$0")/slip" || exit 70
awk '
function judge() {
    if (file == "") return
    all++
    if (line && mend) good++
    else print file ": " (line ? "" : "no line") (!line && !mend ? ", " : "") (mend ? "" : "no mend")
}
file ~ /proof_/ && /bench_time\.lua:[0-9]+ \(/ { line = 1 }
file ~ /proof_/ && / is expected/ { mend = 1 }
FNR == 1 { judge(); file = FILENAME; line = mend = 0 }
/bench_time(\.lua)?:[0-9]+(:|$)/ || /line [0-9]+/ { line = 1 }
/^ +[^ ]/ && !/^ +(in [a-z_]+|FAILED|recipes|\^|\x27[a-z]+\x27 is)/ || /, such as / { mend = 1 }
END { judge(); print good " of " all " slips are told with line, cause and mend"; exit good < 170 || all < 177 }
' ./*.want
