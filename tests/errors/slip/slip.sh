# A beginner's slip in the recipe of docs/recipes.md: it is changed by sed, checked, and run where the check lets it pass.
#   slip 's/title = "Bench time",/title = "Bench time"/'
#   line 'local x = labour * 1,5'                            put in before work returns
base=$(dirname "$0")/bench_time.lua
try() {
    lemel check bench_time >checked 2>&1
    status=$?
    grep -v '^bench_time: sound$' checked | sed 's/^bench_time: sound//' >&2
    if [ $status != 0 ]; then # what the check sees, a proof that is run says too
        lemel prove bench_time >proved 2>/dev/null
        grep -q FAILED proved && cat proved >&2 && exit 1
        exit $status
    fi
    lemel prove bench_time >proved 2>&1 || { cat proved >&2; exit 1; }
    lemel run -q bench_time worked="130 min" rate="68 USD/h"
}
slip() {
    sed "$1" "$base" >recipes/bench_time.lua
    try
}
line() {
    { sed -n 1,20p "$base"; printf '    %s\n' "$1"; sed -n '21,$p' "$base"; } >recipes/bench_time.lua
    try
}
